//! What the comparisons rest on that nobody recorded: the bounds that hold all the same, and what recording an input would
//! bring.

use crate::Quantity;
use crate::assumed::{held, table};
use crate::fact::AssumedInput;
use crate::result::{Assumptions, Comparison, GroupResult, LowerBound, Recording, TrialSummary};
use calefact_stats::univariate::mean;
use calefact_stats::{Estimate, Interval};
use std::collections::{BTreeMap, BTreeSet};

/// Inputs named singly.
const NAMED: usize = 3;
/// Narrowing of an interval that is worth the trouble.
const WORTH: f64 = 0.05;

/// Assumptions behind the comparisons; `inputs` are those that estimates of the trials rest on.
pub(super) fn assumptions(
    inputs: BTreeSet<AssumedInput>,
    comparisons: &[Comparison],
    trials: &[TrialSummary],
) -> Assumptions {
    Assumptions {
        inputs: inputs.into_iter().collect(),
        at_least: comparisons.iter().map(|c| bounds(c, trials)).find(|found| !found.is_empty()).unwrap_or_default(),
        record: comparisons.iter().find_map(recordings).unwrap_or_default(),
    }
}

/// The true efficiency credits what was left over, so it is not below that with nothing credited.
fn bounds(comparison: &Comparison, trials: &[TrialSummary]) -> Vec<LowerBound> {
    let efficiency = comparison.groups.iter().filter(|g| g.quantity == Quantity::ThermalEfficiency);
    let open = |g: &&GroupResult| {
        let held = g.assumed();
        held.contains(&AssumedInput::LeftoverFuel) || held.contains(&AssumedInput::LeftoverChar)
    };
    efficiency.filter(open).filter_map(|g| bound(g, trials)).collect()
}

fn bound(group: &GroupResult, trials: &[TrialSummary]) -> Option<LowerBound> {
    let members = trials.iter().filter(|t| group.trials.contains(&t.trial));
    let found: Option<Vec<_>> = members.map(|t| t.spanned(Quantity::ThermalEfficiencyUncredited)).collect();
    let found = found.filter(|v| !v.is_empty())?;
    let (values, halves): (Vec<f64>, Vec<f64>) = found.iter().map(|(v, i)| (v.value, i.half_width())).unzip();
    // Errors of measurement that trials share do not shrink in their mean; those that do shrink are left as they are.
    Some(LowerBound { levels: group.levels.clone(), efficiency: mean(&values), half_width: mean(&halves) })
}

/// What recording would bring to the group of the main quantity that would gain most; the largest inputs one by one, then
/// together. `None` where nothing is worth it.
fn recordings(comparison: &Comparison) -> Option<Vec<Recording>> {
    let quantity = comparison.groups.first()?.quantity;
    let groups = comparison.groups.iter().filter(|g| g.quantity == quantity);
    let gains = groups.map(|g| (g, held::shares(&g.traced.parts, g.mean.std_uncertainty)));
    let total = |shares: &BTreeMap<AssumedInput, f64>| shares.iter().map(|(i, s)| gain(*i, *s)).sum::<f64>();
    let (group, shares) = gains.max_by(|a, b| total(&a.1).total_cmp(&total(&b.1)))?;
    let mut inputs: Vec<(AssumedInput, f64)> = shares.iter().map(|(i, s)| (*i, gain(*i, *s))).collect();
    inputs.retain(|(_, gain)| 1.0 - (1.0 - gain).sqrt() >= WORTH);
    inputs.sort_by(|a, b| b.1.total_cmp(&a.1));
    inputs.truncate(NAMED);
    let mut found: Vec<Recording> = inputs.iter().map(|one| recording(group, std::slice::from_ref(one))).collect();
    if inputs.len() > 1 {
        found.push(recording(group, &inputs));
    }
    (!found.is_empty()).then_some(found)
}

/// Share of the variance that recording an input would take away.
fn gain(input: AssumedInput, share: f64) -> f64 {
    share * (1.0 - table::left_when_recorded(input).powi(2))
}

fn recording(group: &GroupResult, inputs: &[(AssumedInput, f64)]) -> Recording {
    let gained: f64 = inputs.iter().map(|(_, gain)| gain).sum();
    let left = (1.0 - gained).max(0.0).sqrt();
    let Interval { lower, upper, confidence } = group.mean.interval;
    let at = |end: f64| group.mean.value + left * (end - group.mean.value);
    let recorded = Estimate {
        std_uncertainty: left * group.mean.std_uncertainty,
        interval: Interval { lower: at(lower), upper: at(upper), confidence },
        ..group.mean.clone()
    };
    Recording {
        inputs: inputs.iter().map(|(input, _)| *input).collect(),
        quantity: group.quantity,
        levels: group.levels.clone(),
        mean: group.mean.clone(),
        recorded,
    }
}
