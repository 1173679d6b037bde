//! Whether what a row names exists: stove, fuel, exchanger, vessel; and whether its trial id is its own.

use super::cells::Cells;
use crate::fact::RegisterFact;
use crate::{Apparatus, ApparatusKind};
use std::collections::BTreeMap;

/// Reports ids that `dataset.toml` does not define.
pub(super) fn check(cells: &mut Cells<'_>, apparatus: &Apparatus) {
    check_column(cells, "stove", ApparatusKind::Stove, &apparatus.stoves);
    check_column(cells, "fuel", ApparatusKind::Fuel, &apparatus.fuels);
    check_column(cells, "exchanger", ApparatusKind::Exchanger, &apparatus.exchangers);
    check_column(cells, "vessel", ApparatusKind::Vessel, &apparatus.vessels);
}

fn check_column<T>(cells: &mut Cells<'_>, column: &str, kind: ApparatusKind, entries: &BTreeMap<String, T>) {
    let Some(id) = cells.text(column).filter(|id| !entries.contains_key(id)) else { return };
    cells.error(column, RegisterFact::UnknownId { kind, id, known: entries.keys().cloned().collect() });
}

/// Reports a trial id that an earlier row, by its line, has.
pub(super) fn check_duplicate(cells: &mut Cells<'_>, earlier: &BTreeMap<String, u64>) {
    let Some(trial) = cells.text("trial") else { return };
    if let Some(&line) = earlier.get(&trial) {
        cells.error("trial", RegisterFact::DuplicateTrial { trial, line });
    }
}
