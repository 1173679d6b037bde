//! The exchanger at work in a burn, as the numbers that forecasts of other builds start from.

use super::path::Path;
use super::slots::PathSlot as P;
use super::terms::Check;
use crate::Quantity;
use crate::result::{OperatingPart, OperatingValue, TrialResult};

/// The numbers that are known, where the conductance is; else none.
pub(super) fn values(path: &Path, result: &TrialResult) -> Vec<OperatingValue> {
    if result.get(Quantity::ExchangerConductance).is_none() {
        return Vec::new();
    }
    let value = |part: OperatingPart| {
        let traced = match part {
            OperatingPart::Power => &path.traced[Quantity::CoilPower as usize],
            OperatingPart::GasIn => path.inputs.get(P::FlueBefore),
            OperatingPart::GasOut => path.inputs.get(P::FlueAfter),
            OperatingPart::WaterIn => path.inputs.get(P::CoilIn),
            OperatingPart::WaterRise => &path.traced[Check::WaterRise.index()],
        };
        let known = traced.value.is_finite() && traced.std_uncertainty().is_finite();
        let estimate = path.estimate(traced, part.unit());
        known.then(|| OperatingValue { part, estimate, traced: traced.clone() })
    };
    OperatingPart::ALL.into_iter().filter_map(value).collect()
}
