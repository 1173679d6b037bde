//! The next build: what an exchanger of another length, number of passes or water flow would do on the same fire.
//!
//! Each burn is taken as it was: gas and water enter as hot and as fast. Its conductance is scaled to the build (`law`),
//! and effectiveness and number of transfer units of the flow arrangement give heat and outlet temperatures (`changed`).
//! The burns of a stove with an exchanger are then averaged (`outcome`): their scatter shrinks with their number, the
//! errors of instruments and those of the law do not. Nothing here looks at a log.

mod burns;
mod cautions;
mod changed;
mod curves;
mod forecast;
mod law;
mod outcome;
mod reach;
mod request;

pub use request::{BuildRequest, Size, answer};

use crate::result::{Builds, TrialSummary};
use crate::settings::Settings;
use crate::shared::SharedSources;
use calefact_data::Apparatus;
use calefact_physics::air;
use calefact_physics::exchanger::BuildRatio;

/// Lengths that are always forecast, as ratios to the exchanger's own.
const LENGTHS: [f64; 3] = [0.5, 1.0, 2.0];

/// Forecasts for every combination of stove and exchanger whose conductance was measured.
pub(crate) fn builds(
    settings: &Settings,
    apparatus: &Apparatus,
    shared: &SharedSources,
    trials: &[TrialSummary],
) -> Builds {
    let combinations = burns::combinations(trials, apparatus);
    let mut builds = Builds {
        model: (!combinations.is_empty()).then(|| law::model(&burns::measured(trials, apparatus), shared)),
        combinations,
        confidence: settings.level,
        boiling_degc: air::boiling_point(apparatus.site.altitude_m.unwrap_or(0.0)),
        hot_inlet_degc: settings.reference_job.as_ref().map(|job| job.to),
        ..Builds::default()
    };
    let ratios = LENGTHS.map(|area| BuildRatio { area, passes: 1.0, water_flow: 1.0 });
    let of_each = builds.combinations.iter().flat_map(|c| ratios.map(|ratio| forecast::forecast(&builds, c, ratio)));
    let forecasts = of_each.flatten().collect();
    let curves = curves::curves(&builds);
    (builds.forecasts, builds.curves) = (forecasts, curves);
    builds
}
