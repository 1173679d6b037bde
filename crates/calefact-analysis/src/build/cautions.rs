//! Cautions of a build that does not exist yet. Limits are those of the cautions a log calls for.

use super::changed::{self, Law, Target};
use crate::result::{BuildCaution, BuildOutcome, Builds, MeasuredExchanger, OperatingPart};
use calefact_physics::caution::{COIL_BOIL_MARGIN, CREOSOTE_FLUE_GAS};
use calefact_physics::exchanger::{BuildRatio, laminar_flow};

/// Most by which the flow is raised in the search for one that stays clear of boiling.
const MOST_FLOW: f64 = 100.0;

/// Gas that leaves, or in one burn may leave, below the creosote guidance.
pub(super) fn creosote(gas_out: &BuildOutcome) -> Option<BuildCaution> {
    let lowest_degc = gas_out.next.unwrap_or(gas_out.mean.interval).lower;
    let gas_degc = gas_out.mean.value;
    (lowest_degc < CREOSOTE_FLUE_GAS).then_some(BuildCaution::Creosote { gas_degc, lowest_degc })
}

/// Mean temperature of the water into the exchanger, degC.
fn mean_inlet(combination: &MeasuredExchanger) -> f64 {
    let inlets = combination.burns.iter().map(|b| b.values[OperatingPart::WaterIn as usize]);
    inlets.sum::<f64>() / combination.burns.len() as f64
}

/// Water that leaves near boiling when the tank has become as hot as it is to be.
pub(super) fn near_boiling(
    builds: &Builds,
    combination: &MeasuredExchanger,
    law: &Law,
    target: &Target,
    flow_kg_s: f64,
) -> Option<BuildCaution> {
    let count = combination.burns.len() as f64;
    let mean_inlet = mean_inlet(combination);
    let inlet_degc = builds.hot_inlet_degc.unwrap_or(mean_inlet).max(mean_inlet);
    let limit = builds.boiling_degc - COIL_BOIL_MARGIN;
    let water_out = |times: f64| {
        let ratio = BuildRatio { water_flow: times * target.ratio.water_flow, ..target.ratio };
        let target = Target { ratio, water_in: Some(inlet_degc), ..*target };
        let out = combination.burns.iter().filter_map(|burn| changed::water_out(burn, law, &target));
        out.sum::<f64>() / count
    };
    let water_degc = water_out(1.0);
    if water_degc < limit {
        return None;
    }
    let (mut low, mut high) = (1.0, MOST_FLOW);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if water_out(middle) < limit { high = middle } else { low = middle }
    }
    let least_flow_kg_s = (water_out(MOST_FLOW) < limit).then_some(flow_kg_s * high);
    Some(BuildCaution::NearBoiling { water_degc, inlet_degc, boiling_degc: builds.boiling_degc, least_flow_kg_s })
}

/// Water so slow that it is laminar in the tube, at the middle of its temperatures in and out.
pub(super) fn slow_flow(combination: &MeasuredExchanger, flow_kg_s: f64, out_degc: f64) -> Option<BuildCaution> {
    let middle = f64::midpoint(mean_inlet(combination), out_degc);
    let least_flow_kg_s = laminar_flow(combination.tube_inside_m?, middle);
    (flow_kg_s < least_flow_kg_s).then_some(BuildCaution::SlowFlow { flow_kg_s, least_flow_kg_s })
}
