//! Picking out of an analysis what several artefacts show: severities, groups of a quantity, the level names of a group.

use calefact_analysis::result::{Analysis, Comparison, GroupResult, TrialSummary};
use calefact_analysis::{Better, Quantity};
use calefact_data::Severity;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The word for a severity.
pub(crate) fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Note => "note",
        Severity::Warning => "warning",
        Severity::Error => "error",
    }
}

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
    let number = |g: &GroupResult| group_name(g).parse::<f64>().unwrap_or(f64::NAN);
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

/// Name of a group for a reader: its levels, joined.
pub(crate) fn group_name(group: &GroupResult) -> String {
    let levels: Vec<&str> = group.levels.iter().map(|(_, level)| level.as_str()).collect();
    levels.join(" · ")
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
