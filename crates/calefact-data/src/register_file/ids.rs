//! Whether what a row names exists: stove, fuel, exchanger, vessel; and whether its trial id is its own.

use super::cells::Cells;
use crate::fact::RegisterFact;
use crate::{Apparatus, ApparatusKind, named};
use std::collections::BTreeMap;

/// The id that a cell means; one that dataset.toml does not define is reported.
pub(super) fn id(cells: &mut Cells<'_>, column: &'static str, apparatus: &Apparatus) -> Option<String> {
    let (cell, kind) = (cells.text(column)?, ApparatusKind::from_column(column)?);
    let found = named::id(apparatus, kind, &cell);
    if found.is_none() {
        cells.error(column, RegisterFact::UnknownId { kind, id: cell, known: apparatus.ids(kind) });
    }
    found
}

/// Reports a trial id that an earlier row, by its line, has.
pub(super) fn check_duplicate(cells: &mut Cells<'_>, earlier: &BTreeMap<String, u64>) {
    let Some(trial) = cells.text("trial") else { return };
    if let Some(&line) = earlier.get(&trial) {
        cells.error("trial", RegisterFact::DuplicateTrial { trial, line });
    }
}
