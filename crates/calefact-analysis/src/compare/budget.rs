//! The uncertainty budget of group means: which source dominates which quantity.

use crate::budget;
use crate::result::{BudgetRow, Comparison, GroupResult};
use crate::shared::own_source;
use calefact_stats::ErrorSources;

/// Rows of the group means, after those of the `trials`. `sources` are those that trials share and the scatters between them.
pub(crate) fn with_groups(
    trials: Vec<BudgetRow>,
    comparisons: &[Comparison],
    sources: &ErrorSources,
) -> Vec<BudgetRow> {
    let mut rows = trials;
    for group in comparisons.iter().flat_map(|c| &c.groups) {
        let own = group_rows(group, &rows, sources);
        rows.extend(own);
    }
    rows
}

/// A group whose mean is the value of its one trial has the budget of that trial, where it is known.
fn group_rows(group: &GroupResult, trials: &[BudgetRow], sources: &ErrorSources) -> Vec<BudgetRow> {
    let name: Vec<String> = group.levels.iter().map(|(f, l)| format!("{f} {l}")).collect();
    let name = name.join(", ");
    if let [alone] = &group.trials[..]
        && group.traced.parts.iter().any(|(source, _)| *source == own_source(alone))
    {
        let own = trials.iter().filter(|r| r.quantity == group.quantity && r.of == **alone);
        let own: Vec<BudgetRow> = own.map(|r| BudgetRow { of: name.clone(), ..r.clone() }).collect();
        if !own.is_empty() {
            return own;
        }
    }
    budget::rows(group.quantity, &name, &group.traced, |source| sources.get(source))
}
