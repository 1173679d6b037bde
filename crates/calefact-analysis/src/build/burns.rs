//! The burns that forecasts of builds rest on, by stove and exchanger.

use crate::Quantity;
use crate::result::{MeasuredExchanger, OperatingBurn, TrialSummary};
use crate::shared::SharedValue;
use calefact_data::apparatus::{Apparatus, Arrangement, Exchanger};
use calefact_physics::exchanger::tube_area;

/// A burn whose exchanger has a known area, with its conductance and gas flow.
#[derive(Debug, Clone, Copy)]
pub(super) struct MeasuredBurn<'t> {
    /// Id of the exchanger.
    pub(super) exchanger: &'t str,
    /// Outside area of its tube, m2.
    pub(super) area: f64,
    /// Conductance, W/K.
    pub(super) conductance: SharedValue<'t>,
    /// Gas flow, kg/s.
    pub(super) gas_flow: SharedValue<'t>,
}

/// A dimension of a build that is above zero.
fn dimension(exchanger: &Exchanger, key: &str) -> Option<f64> {
    exchanger.build.get(key).copied().filter(|size| *size > 0.0)
}

fn area(exchanger: &Exchanger) -> Option<f64> {
    Some(tube_area(dimension(exchanger, "tube_outside")?, dimension(exchanger, "length")?))
}

/// Usable burns with a described exchanger.
fn with_exchanger<'t>(
    trials: &'t [TrialSummary],
    apparatus: &'t Apparatus,
) -> impl Iterator<Item = (&'t TrialSummary, &'t str, &'t Exchanger)> {
    trials.iter().filter(|t| t.usable()).filter_map(|trial| {
        let id = trial.level("exchanger")?;
        Some((trial, id, apparatus.exchangers.get(id)?))
    })
}

/// Burns that show how conductance follows the area.
pub(super) fn measured<'t>(trials: &'t [TrialSummary], apparatus: &'t Apparatus) -> Vec<MeasuredBurn<'t>> {
    let burn = |(trial, exchanger, entry): (&'t TrialSummary, &'t str, &'t Exchanger)| {
        let positive = |q| trial.get(q).filter(|v| v.value > 0.0);
        let (conductance, gas_flow) = (positive(Quantity::ExchangerConductance)?, positive(Quantity::GasFlow)?);
        Some(MeasuredBurn { exchanger, area: area(entry)?, conductance, gas_flow })
    };
    with_exchanger(trials, apparatus).filter_map(burn).collect()
}

/// Combinations of stove and exchanger with a burn whose conductance is known, in the order of the register.
pub(super) fn combinations(trials: &[TrialSummary], apparatus: &Apparatus) -> Vec<MeasuredExchanger> {
    let mut all: Vec<MeasuredExchanger> = Vec::new();
    for (trial, exchanger, entry) in with_exchanger(trials, apparatus) {
        let arrangement = entry.arrangement.unwrap_or(Arrangement::Counter);
        let Some(burn) = OperatingBurn::new(arrangement, |part| trial.operating(part)) else { continue };
        let stove = trial.level("stove");
        match all.iter_mut().find(|c| c.exchanger == exchanger && c.stove.as_deref() == stove) {
            Some(combination) => combination.burns.push(burn),
            None => all.push(MeasuredExchanger { burns: vec![burn], ..combination(stove, exchanger, entry) }),
        }
    }
    all
}

fn combination(stove: Option<&str>, exchanger: &str, entry: &Exchanger) -> MeasuredExchanger {
    MeasuredExchanger {
        stove: stove.map(str::to_owned),
        exchanger: exchanger.to_owned(),
        length_m: dimension(entry, "length"),
        area_m2: area(entry),
        tube_inside_m: dimension(entry, "tube_inside"),
        passes: dimension(entry, "passes"),
        burns: Vec::new(),
    }
}
