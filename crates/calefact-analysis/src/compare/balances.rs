//! The energy balance of a group: mean share of each term over its trials, shared errors kept.

use crate::result::{BalanceTerm, GroupBalance, TrialResult};
use calefact_stats::group::GroupMean;
use calefact_stats::{Estimate, SourceBook, Traced};

/// Balances of the levels of a factor, term by term in the order of the first trial that has them. A term counts for the
/// trials that have it.
pub fn balances(
    factor: &str,
    levels: &[String],
    chosen: &[&TrialResult],
    sources: &SourceBook,
    level: f64,
) -> Vec<GroupBalance> {
    let mut out = Vec::new();
    for name in levels {
        let trials: Vec<&TrialResult> =
            chosen.iter().copied().filter(|t| t.row.level(factor) == Some(name) && !t.balance.is_empty()).collect();
        for term in terms(&trials) {
            let shares: Vec<Traced> = trials
                .iter()
                .filter_map(|t| t.balance.iter().find(|b| b.term == term))
                .map(|b| b.traced.clone())
                .collect();
            let scatter = format!("scatter:balance:{term}:{factor}:{name}");
            let Some(group) = GroupMean::of(&shares, sources, scatter) else { continue };
            out.push(finish(name, term, shares.len(), &group, level));
        }
    }
    out
}

fn finish(name: &str, term: &'static str, n: usize, group: &GroupMean, level: f64) -> GroupBalance {
    let method = if n == 1 { "one trial: measurement only, no repeat" } else { "mean, t interval, shared errors kept" };
    let mean = &group.mean;
    let share = Estimate::student(mean.value, "1", mean.std_uncertainty(), group.dof, level, method);
    GroupBalance { level: name.to_owned(), term, n, share }
}

/// Terms that any of the trials has, in the order in which they stand in a balance.
fn terms(trials: &[&TrialResult]) -> Vec<&'static str> {
    let has = |term: &&'static str| trials.iter().flat_map(|t| &t.balance).any(|b: &BalanceTerm| b.term == *term);
    crate::heat_path::terms::Term::ALL.iter().map(|t| t.name()).filter(has).collect()
}
