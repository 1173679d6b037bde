//! Picking out of an analysis what several artefacts show: the quantities of a comparison, the groups of a quantity.

use calefact_analysis::result::{Analysis, Comparison, GroupResult, TrialSummary};
use calefact_analysis::{Better, Quantity};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Quantities of a comparison in the order they are first met.
pub(crate) fn quantities(comparison: &Comparison) -> Vec<Quantity> {
    let mut seen = Vec::new();
    let named = comparison.groups.iter().map(|g| g.quantity);
    for quantity in named.chain(comparison.contrasts.iter().map(|c| c.quantity)) {
        if !seen.contains(&quantity) {
            seen.push(quantity);
        }
    }
    seen
}

/// Groups of one quantity of a comparison; in rising order where the levels are numbers.
pub(crate) fn groups(comparison: &Comparison, quantity: Quantity) -> Vec<&GroupResult> {
    let mut found: Vec<&GroupResult> = comparison.groups.iter().filter(|g| g.quantity == quantity).collect();
    let number = |g: &GroupResult| single_level(g).and_then(|level| level.parse().ok()).unwrap_or(f64::NAN);
    if found.iter().all(|g| number(g).is_finite()) {
        found.sort_by(|a, b| number(a).total_cmp(&number(b)));
    }
    found
}

/// Groups of one quantity, the best first; the highest first where neither direction is better.
pub(crate) fn best_first(comparison: &Comparison, quantity: Quantity) -> Vec<&GroupResult> {
    let mut found = groups(comparison, quantity);
    found.sort_by(|a, b| match quantity.better() {
        Better::Lower => a.mean.value.total_cmp(&b.mean.value),
        Better::Higher | Better::Neither => b.mean.value.total_cmp(&a.mean.value),
    });
    found
}

/// The level of a group that is split by one factor.
pub(crate) fn single_level(group: &GroupResult) -> Option<&str> {
    let [(_, level)] = &group.levels[..] else { return None };
    Some(level)
}

/// Trials by id.
pub(crate) struct Index<'a>(BTreeMap<&'a str, &'a TrialSummary>);

impl<'a> Index<'a> {
    /// Of all trials.
    pub(crate) fn new(analysis: &'a Analysis) -> Self {
        Self(analysis.trials.iter().map(|t| (&*t.trial, t)).collect())
    }

    /// The trials of a group that have its quantity, with the value.
    pub(crate) fn values(&self, group: &GroupResult) -> Vec<f64> {
        let value = |id: &Arc<str>| self.0.get(&**id).and_then(|t| t.get(group.quantity)).map(|v| v.value);
        group.trials.iter().filter_map(value).collect()
    }
}
