//! What would narrow the intervals of a comparison, in a line or two: more burns, or which better instrument.

use super::sentence::capital;
use crate::result::{Comparison, GroupResult};
use calefact_stats::SourceBook;
use std::collections::BTreeMap;

/// Share of the variance below which a better instrument would not be noticed.
const NOT_WORTH_IT: f64 = 0.02;
/// How many sources are named as not worth it.
const MOST_NAMED: usize = 4;

/// Advice on the main quantity of a comparison: variances of its level means, averaged.
pub fn of(comparison: &Comparison, sources: &SourceBook) -> Vec<String> {
    let Some(quantity) = comparison.groups.first().map(|g| g.quantity) else { return Vec::new() };
    let groups: Vec<&GroupResult> = comparison.groups.iter().filter(|g| g.quantity == quantity).collect();
    let (scatter, shared) = shares(&groups, sources);
    let Some((top, share)) = shared.first() else { return Vec::new() };
    let mut lines = Vec::new();
    let head = capital(&format!("{}, {}", comparison.title, quantity.label()));
    if *share >= NOT_WORTH_IT {
        let narrower = 100.0 * (1.0 - (1.0 - 0.75 * share).sqrt());
        let burns = match 100.0 * scatter {
            s if s >= 60.0 => {
                format!("burns differ among themselves, which makes {s:.0} % of the variance: more burns help most")
            }
            s if s >= 20.0 => format!("more burns help ({s:.0} % of the variance), and so does a better instrument"),
            s => format!("more burns would hardly help ({s:.0} % of the variance)"),
        };
        lines.push(format!(
            "{head}: {burns}. Half the error of {top} ({:.0} %) would make the intervals of the means {narrower:.0} % narrower",
            100.0 * share
        ));
    } else {
        lines.push(format!(
            "{head}: only more burns help, {:.0} % of the variance is burn-to-burn scatter",
            100.0 * scatter
        ));
    }
    let idle: Vec<&str> = shared.iter().filter(|s| s.1 < NOT_WORTH_IT).map(|s| s.0.as_str()).take(MOST_NAMED).collect();
    if !idle.is_empty() {
        let each = if idle.len() == 1 { "under" } else { "each under" };
        lines.push(format!(
            "{head}: less error of {} would not be noticed ({each} {:.0} % of the variance)",
            idle.join("; "),
            100.0 * NOT_WORTH_IT
        ));
    }
    lines
}

/// Share of the scatter between trials, and of each other source by label, largest first: averages over the groups.
fn shares(groups: &[&GroupResult], sources: &SourceBook) -> (f64, Vec<(String, f64)>) {
    let mut scatter = 0.0;
    let mut by_label: BTreeMap<String, f64> = BTreeMap::new();
    let weight = 1.0 / groups.len() as f64;
    for group in groups {
        let variance = group.traced.std_uncertainty().powi(2);
        for (source, part) in group.traced.parts.iter().filter(|_| variance > 0.0) {
            let share = weight * part * part / variance;
            if source.starts_with("scatter:") {
                scatter += share;
            } else {
                let label = sources.get(source).map_or_else(|| source.to_string(), |i| i.label.clone());
                *by_label.entry(label).or_insert(0.0) += share;
            }
        }
    }
    let mut shared: Vec<(String, f64)> = by_label.into_iter().collect();
    shared.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    (scatter, shared)
}
