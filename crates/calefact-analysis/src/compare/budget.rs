//! The uncertainty budget: which source dominates which quantity, and what a better instrument would bring.

use crate::budget;
use crate::result::{BudgetRow, Comparison, GroupResult};
use crate::shared::own_source;
use calefact_stats::ErrorSources;

/// Rows of the group means, after those of the `trials`, and advice in words. `sources` are those that trials share and the
/// scatters between them.
pub fn draw(
    trials: Vec<BudgetRow>,
    comparisons: &[Comparison],
    sources: &ErrorSources,
) -> (Vec<BudgetRow>, Vec<String>) {
    let mut rows = trials;
    let mut advice = Vec::new();
    for comparison in comparisons {
        for group in &comparison.groups {
            let own = of_group(group, &rows, sources);
            rows.extend(own);
        }
        for line in super::advice::of(comparison, sources) {
            if !advice.contains(&line) {
                advice.push(line);
            }
        }
    }
    (rows, advice)
}

/// A group whose mean is the value of its one trial has the budget of that trial, where it is known.
fn of_group(group: &GroupResult, trials: &[BudgetRow], sources: &ErrorSources) -> Vec<BudgetRow> {
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
    budget::of(group.quantity, &name, &group.traced, |source| sources.get(source))
}
