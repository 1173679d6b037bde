//! The uncertainty budget of group means and of the differences between them: which source dominates which quantity.

use crate::budget;
use crate::fact::ErrorSource;
use crate::result::{BudgetOwner, BudgetRow, Comparison, Contrast, ContrastKind, GroupResult, Method};
use crate::shared::own_source;
use calefact_stats::ErrorSources;

/// Rows of the group means and their differences, after those of the `trials`. `sources` are those that trials share and the scatters between them.
pub(crate) fn with_groups(
    trials: Vec<BudgetRow>,
    comparisons: &[Comparison],
    sources: &ErrorSources,
) -> Vec<BudgetRow> {
    let mut rows = trials;
    for (comparison, Comparison { groups, contrasts, .. }) in comparisons.iter().enumerate() {
        for group in groups {
            let own = group_rows(comparison, group, &rows, sources);
            rows.extend(own);
        }
        for contrast in contrasts.iter().filter(|c| c.kind == ContrastKind::Difference) {
            rows.extend(difference_rows(comparison, contrast, sources));
        }
    }
    rows
}

fn difference_rows(comparison: usize, contrast: &Contrast, sources: &ErrorSources) -> Vec<BudgetRow> {
    let (factor, a, b) = (contrast.factor.clone(), contrast.a.clone(), contrast.b.clone());
    let owner = BudgetOwner::Difference { comparison, factor, a, b };
    let mut rows = budget::rows(contrast.quantity, &owner, &contrast.traced, |source| sources.get(source));
    rows.iter_mut().filter(|r| r.source == ErrorSource::TrialScatter).for_each(|r| r.shared = true);
    rows
}

/// A group whose mean is the value of its one trial has the budget of that trial, where it is known.
fn group_rows(comparison: usize, group: &GroupResult, rows: &[BudgetRow], sources: &ErrorSources) -> Vec<BudgetRow> {
    let owner = BudgetOwner::Group { comparison, levels: group.levels.clone() };
    if let [alone] = &group.trials[..]
        && group.method == Method::SingleTrial
        && group.traced.parts.iter().any(|(source, _)| *source == own_source(alone))
    {
        let trial = BudgetOwner::Trial(alone.clone());
        let own = rows.iter().filter(|r| r.quantity == group.quantity && r.owner == trial);
        let own: Vec<BudgetRow> = own.map(|r| BudgetRow { owner: owner.clone(), ..r.clone() }).collect();
        if !own.is_empty() {
            return own;
        }
    }
    budget::rows(group.quantity, &owner, &group.traced, |source| sources.get(source))
}
