//! What the uncertainty of one value is made of.

use crate::Quantity;
use crate::result::BudgetRow;
use calefact_stats::{Source, SourceInfo, UncertainValue};
use std::collections::BTreeMap;

/// Share of the variance below which a source is not listed singly.
const LISTED: f64 = 0.001;

/// Budget of one traced value, largest share first; sources with the same label are one row.
pub(crate) fn rows<'b>(
    quantity: Quantity,
    name: &str,
    traced: &'b UncertainValue,
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
