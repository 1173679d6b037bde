//! Cautions: where a log shows what the trade warns of. Each is tied to a computed condition with its time and trial.
//!
//! They warn and do no more: local codes and licensed practice decide. Figures and their sources are in
//! [`calefact_physics::caution`]. One file a place: [`coil`], [`gas`], [`store`]; [`general`] holds those that any burn
//! calls for.

pub mod coil;
pub mod gas;
pub mod general;
pub mod store;

use crate::finding::{Finding, FindingGroup, FindingSummary};
use crate::result::Caution;
use crate::series::Series;
use calefact_data::fact::FromText as _;
use calefact_data::{Readings, RegisterRow, Severity};
use calefact_physics::air;

/// Ends every list of cautions.
pub const DEFERENCE: &str =
    "these cautions do not replace local codes, the makers' instructions and licensed practice, which decide";

/// What a caution may look at.
#[derive(Debug, Clone, Copy)]
pub struct Scene<'a> {
    /// Register row.
    pub row: &'a RegisterRow,
    /// Log.
    pub readings: &'a Readings,
    /// Tank curve.
    pub series: &'a Series,
    /// Altitude, m, if known.
    pub altitude: Option<f64>,
    /// Start and end of the steady part, s.
    pub steady: Option<(f64, f64)>,
}

impl Scene<'_> {
    /// Boiling point of the place, degC.
    pub fn boiling(&self) -> f64 {
        air::boiling_point(self.altitude.unwrap_or(0.0))
    }

    /// The place in words.
    pub fn place(&self) -> String {
        self.altitude.map_or_else(|| "at sea level (no altitude stated)".into(), |a| format!("at {a:.0} m"))
    }
}

/// All cautions of a trial, as findings.
pub fn findings(scene: &Scene) -> Vec<Finding> {
    let found = [
        coil::near_boiling(scene),
        coil::flow_stopped(scene),
        coil::dry(scene),
        gas::creosote(scene),
        gas::carbon_monoxide(scene),
        store::scald(scene),
        store::tub(scene),
        store::lukewarm(scene),
    ];
    let placed = |f: Finding| f.trial(scene.row.trial.clone()).at(scene.row.log.clone(), None, None);
    found.into_iter().flatten().map(placed).collect()
}

/// One caution a kind among the findings of trials, the graver first, then the general ones where anything was `burnt`.
pub fn collect(noticed: &FindingSummary, burnt: bool) -> Vec<Caution> {
    let shown = noticed.kinds().iter().filter(|k| k.leading().code().starts_with("caution-"));
    let mut all: Vec<Caution> = shown.map(caution).collect();
    all.sort_by_key(|c| std::cmp::Reverse(c.severity));
    all.extend(general::all(burnt));
    all
}

/// The caution of a kind, in the words of the first trial that shows it.
fn caution(alike: &FindingGroup) -> Caution {
    let first = alike.leading();
    let words = first.fact.text();
    let advice = words.and_then(|w| w.hint.as_ref()).map_or_else(String::new, |h| format!(": {h}"));
    let text = format!("{}{advice}", words.map_or("", |w| &w.message));
    let trials = alike.trials().into_iter().map(ToOwned::to_owned).collect();
    Caution { code: first.code(), severity: first.severity, text, trials }
}

/// A caution that belongs to no one trial.
fn general_caution(code: &'static str, severity: Severity, text: impl Into<String>) -> Caution {
    Caution { code, severity, text: text.into(), trials: Vec::new() }
}

/// Minutes of a time in seconds, for sentences.
fn minutes(t: f64) -> f64 {
    t / 60.0
}

#[cfg(test)]
mod tests;
