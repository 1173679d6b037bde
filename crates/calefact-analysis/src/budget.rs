//! What the uncertainty of one value is made of.

use crate::Quantity;
use crate::fact::ErrorSource;
use crate::result::{BudgetOwner, BudgetRow};
use calefact_stats::{Source, SourceInfo, UncertainValue};
use std::collections::BTreeMap;

/// Share of the variance below which a source is not listed singly.
const LISTED: f64 = 0.001;

/// Budget of one traced value, largest share first; scatters of one kind are one row.
pub(crate) fn rows<'b>(
    quantity: Quantity,
    owner: &BudgetOwner,
    traced: &'b UncertainValue,
    lookup: impl Fn(&Source) -> Option<&'b SourceInfo>,
) -> Vec<BudgetRow> {
    let variance: f64 = traced.parts.iter().map(|(_, p)| p * p).sum();
    if variance <= 0.0 {
        return Vec::new();
    }
    let mut by_source: BTreeMap<(ErrorSource, bool), f64> = BTreeMap::new();
    for (source, part) in &traced.parts {
        let shared = lookup(source).is_some_and(|info| info.shared);
        *by_source.entry((ErrorSource::from_key(source), shared)).or_insert(0.0) += part * part;
    }
    let mut rows: Vec<BudgetRow> = by_source
        .into_iter()
        .filter(|(_, square)| square / variance >= LISTED)
        .map(|((source, shared), square)| BudgetRow {
            quantity,
            owner: owner.clone(),
            source,
            shared,
            contribution: square.sqrt(),
            share: square / variance,
        })
        .collect();
    rows.sort_by(|a, b| b.share.total_cmp(&a.share).then_with(|| a.source.cmp(&b.source)));
    rows
}
