//! The uncertainty budget of group means: which source dominates which quantity.

use crate::budget;
use crate::result::{BudgetOwner, BudgetRow, Comparison, GroupResult};
use crate::shared::own_source;
use calefact_stats::ErrorSources;

/// Rows of the group means, after those of the `trials`. `sources` are those that trials share and the scatters between them.
pub(crate) fn with_groups(
    trials: Vec<BudgetRow>,
    comparisons: &[Comparison],
    sources: &ErrorSources,
) -> Vec<BudgetRow> {
    let mut rows = trials;
    for (comparison, groups) in comparisons.iter().map(|c| &c.groups).enumerate() {
        for group in groups {
            let own = group_rows(comparison, group, &rows, sources);
            rows.extend(own);
        }
    }
    rows
}

/// A group whose mean is the value of its one trial has the budget of that trial, where it is known.
fn group_rows(comparison: usize, group: &GroupResult, rows: &[BudgetRow], sources: &ErrorSources) -> Vec<BudgetRow> {
    let owner = BudgetOwner::Group { comparison, levels: group.levels.clone() };
    if let [alone] = &group.trials[..]
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
