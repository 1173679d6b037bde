//! Cross-checks of the heat path: ways of measuring one heat flow that ought to agree, and effectiveness within 0 to 1.

use super::path::Path;
use super::slots::PathSlot as P;
use super::terms::Check;
use crate::Quantity;
use crate::fact::TrialFact;
use crate::fact::trial::{Closure, ClosureSides};
use crate::finding::Finding;
use calefact_data::Severity;
use calefact_stats::UncertainValue;

/// Standard uncertainties beyond which gas that gets hotter over the exchanger shows swapped probes.
const SWAPPED: f64 = 3.0;

/// Findings of the cross-checks.
pub(super) fn findings(path: &Path, traced: &[UncertainValue]) -> Vec<Finding> {
    let found = [
        impossible(path, &traced[Quantity::ExchangerEffectiveness as usize]),
        reversed(path),
        agreement(path, &traced[Check::CoilOverTank.index()], ClosureSides::CoilAndTank),
        agreement(path, &traced[Check::GasOverWater.index()], ClosureSides::GasAndWater),
    ];
    found.into_iter().flatten().collect()
}

/// Two ways to one heat flow: a note where they agree, a warning where they do not.
fn agreement(path: &Path, ratio: &UncertainValue, sides: ClosureSides) -> Option<Finding> {
    let std_uncertainty = ratio.std_uncertainty();
    if !ratio.value.is_finite() || !std_uncertainty.is_finite() {
        return None;
    }
    let closure = Closure { sides, ratio: ratio.value, std_uncertainty, steady: path.phases.steady_part() };
    let severity = if closure.agrees() { Severity::Note } else { Severity::Warning };
    Some(Finding::new(severity, TrialFact::Closure(closure)))
}

/// Standard uncertainties beyond 0 to 1 from which an effectiveness is an error.
const BEYOND_DOUBT: f64 = 2.0;

/// Whether an effectiveness lies outside 0 to 1 beyond doubt.
pub(super) fn is_impossible(effectiveness: &UncertainValue) -> bool {
    let (value, reach) = (effectiveness.value, BEYOND_DOUBT * effectiveness.std_uncertainty());
    value - reach > 1.0 || value + reach < 0.0
}

/// Effectiveness outside 0 to 1: an error beyond doubt, else a warning.
fn impossible(path: &Path, effectiveness: &UncertainValue) -> Option<Finding> {
    let value = effectiveness.value;
    if !value.is_finite() || (0.0..=1.0).contains(&value) {
        return None;
    }
    let beyond_doubt = is_impossible(effectiveness);
    let severity = if beyond_doubt { Severity::Error } else { Severity::Warning };
    let steady = path.phases.steady_part();
    Some(Finding::new(severity, TrialFact::EffectivenessImpossible { value, beyond_doubt, steady }))
}

/// Gas that gets hotter over the exchanger.
fn reversed(path: &Path) -> Option<Finding> {
    let (drop, u) = path.drop;
    let (before_degc, after_degc) = (path.value(P::FlueBefore), path.value(P::FlueAfter));
    let fact = TrialFact::FlueProbesSwapped { before_degc, after_degc };
    (drop < -SWAPPED * u && drop.is_finite()).then(|| Finding::error(fact))
}
