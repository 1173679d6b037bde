//! The uncertainty budget: which source dominates which quantity, and what a better instrument would bring.

use crate::result::{BudgetRow, Comparison, TrialResult};
use calefact_stats::{Source, SourceBook, SourceInfo, Traced};
use std::collections::BTreeMap;

/// Share of the variance below which a source is not listed singly.
const LISTED: f64 = 0.001;

/// Trials above which the budget holds group means alone: a table that nobody reads would be the largest of all.
const MOST_TRIALS: usize = 200;

/// Budget rows of all trials (up to `MOST_TRIALS`) and group means, and advice in words. `sources` are those that trials share
/// and the scatters between them; a trial knows its own.
pub fn draw(trials: &[TrialResult], comparisons: &[Comparison], sources: &SourceBook) -> (Vec<BudgetRow>, Vec<String>) {
    let mut rows = Vec::new();
    let listed = if trials.len() > MOST_TRIALS { &[] } else { trials };
    for trial in listed {
        for estimate in &trial.estimates {
            let lookup = |source: &Source| trial.sources.get(source).or_else(|| sources.get(source));
            rows.extend(of(estimate.quantity, &trial.row.trial, &estimate.traced, lookup));
        }
    }
    let mut advice = Vec::new();
    for comparison in comparisons {
        for group in &comparison.groups {
            let name: Vec<String> = group.levels.iter().map(|(f, l)| format!("{f} {l}")).collect();
            let alone = match &group.trials[..] {
                [id] => trials.iter().find(|t| t.row.trial == *id),
                _ => None,
            };
            let lookup = |source: &Source| sources.get(source).or_else(|| alone?.sources.get(source));
            rows.extend(of(group.quantity, &name.join(", "), &group.traced, lookup));
        }
        for line in super::advice::of(comparison, sources) {
            if !advice.contains(&line) {
                advice.push(line);
            }
        }
    }
    (rows, advice)
}

/// Budget of one traced value, largest share first; sources with the same label are one row.
pub fn of<'b>(
    quantity: crate::Quantity,
    name: &str,
    traced: &'b Traced,
    lookup: impl Fn(&Source) -> Option<&'b SourceInfo>,
) -> Vec<BudgetRow> {
    let variance: f64 = traced.parts.iter().map(|(_, p)| p * p).sum();
    if variance <= 0.0 {
        return Vec::new();
    }
    let mut by_label: BTreeMap<(&str, bool), f64> = BTreeMap::new();
    for (source, part) in &traced.parts {
        let (label, shared) = lookup(source).map_or((source.as_ref(), false), |i| (i.label.as_str(), i.shared));
        *by_label.entry((label, shared)).or_insert(0.0) += part * part;
    }
    let mut rows: Vec<BudgetRow> = by_label
        .into_iter()
        .filter(|(_, square)| square / variance >= LISTED)
        .map(|((source, shared), square)| BudgetRow {
            quantity,
            of: name.to_owned(),
            source: source.to_owned(),
            shared,
            contribution: square.sqrt(),
            share: square / variance,
        })
        .collect();
    rows.sort_by(|a, b| b.share.total_cmp(&a.share).then_with(|| a.source.cmp(&b.source)));
    rows
}
