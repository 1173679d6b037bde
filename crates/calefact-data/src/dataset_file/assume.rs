//! `assume` of a `dataset.toml`: ranges for what was not recorded, or none at all.

use crate::Assume;
use crate::fact::DatasetFact;
use crate::toml_source::{Item, Table};
use std::collections::BTreeMap;

/// The word that switches all ranges off.
pub(super) const NOTHING: [(&str, bool); 1] = [("nothing", true)];

/// Reads the key or the table.
pub(super) fn assume(root: &Table<'_>) -> Assume {
    let nothing = root.word("assume", &NOTHING).unwrap_or(false);
    let Some(table) = root.table("assume") else { return Assume { nothing, ranges: BTreeMap::new() } };
    let range = |key: &&str| Some(((*key).to_owned(), range(&table.item(key)?)?));
    Assume { nothing, ranges: table.keys().iter().filter_map(range).collect() }
}

/// Two ends in order.
fn range(item: &Item<'_>) -> Option<(f64, f64)> {
    let items = item.items();
    let ends: Vec<f64> = items.iter().filter_map(Item::number).collect();
    // An end that does not fit has been reported.
    if ends.len() < items.len() {
        return None;
    }
    match ends[..] {
        [low, high] if low <= high => Some((low, high)),
        _ => {
            item.report(DatasetFact::AssumedRange);
            None
        }
    }
}
