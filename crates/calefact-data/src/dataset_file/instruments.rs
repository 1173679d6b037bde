//! `[instruments.ID]`.

use super::tolerance::parse_tolerance;
use crate::Channel;
use crate::apparatus::{Instrument, Tolerance};
use crate::column_maps::ColumnMaps;
use crate::fact::DatasetFact;
use crate::register_columns;
use crate::toml_source::{Item, Table, parse_width};
use calefact_units::Kind;
use std::collections::BTreeMap;

/// Reads an instrument.
pub(super) fn instrument(table: &Table<'_>) -> Instrument {
    let reads = table.texts("reads");
    let kinds = kinds(table, &reads);
    Instrument {
        name: table.string("name"),
        tolerance: kinds.as_ref().zip(table.item("tolerance")).map(|(k, i)| tolerances(i, k)).unwrap_or_default(),
        resolution: kinds.as_ref().zip(table.item("resolution")).and_then(|(k, i)| resolution(&i, k)),
        calibrated: table.boolean("calibrated").unwrap_or(false),
        reads,
    }
}

/// The kinds a width may be written in: the one kind of what the instrument reads; `water` is measured by volume or
/// by mass and goes with either. `None` where no column is known.
fn kinds(table: &Table<'_>, reads: &[String]) -> Option<Vec<Kind>> {
    let kinds: Vec<Kind> = reads.iter().filter(|n| *n != "water").filter_map(|n| column_kind(n)).collect();
    if table.items("reads").is_empty() {
        table.report(DatasetFact::ReadsNothing { table: table.path().into() });
    }
    let Some(first) = kinds.first().copied() else {
        return (!reads.is_empty()).then(|| vec![Kind::Volume, Kind::Mass]);
    };
    if kinds.iter().any(|k| *k != first) {
        table.report(DatasetFact::MixedKinds { table: table.path().into(), columns: reads.to_vec() });
    }
    Some(vec![first])
}

/// Kind of the quantity a canonical column of log or register holds; `None` for a column of words or times.
fn column_kind(name: &str) -> Option<Kind> {
    match Channel::from_name(name) {
        Some(channel) => Some(channel.kind()),
        None => register_columns::column(name)?.kind(),
    }
}

fn tolerances(item: Item<'_>, kinds: &[Kind]) -> Vec<Tolerance> {
    item.each().iter().filter_map(|i| tolerance(i, kinds)).collect()
}

fn tolerance(item: &Item<'_>, kinds: &[Kind]) -> Option<Tolerance> {
    let written = item.text()?;
    let read = first_fit(kinds, |k| parse_tolerance(written, k));
    read.map_err(|problem| item.report(DatasetFact::Tolerance { written: written.into(), problem })).ok()
}

fn resolution(item: &Item<'_>, kinds: &[Kind]) -> Option<f64> {
    let written = item.text()?;
    let read = first_fit(kinds, |k| parse_width(written, k));
    read.map_err(|error| item.report(DatasetFact::Resolution { written: written.into(), error })).ok()
}

/// The first kind that reads without error, else the error of the first kind.
fn first_fit<T, E>(kinds: &[Kind], read: impl Fn(Kind) -> Result<T, E>) -> Result<T, E> {
    let first = read(kinds.first().copied().unwrap_or(Kind::Fraction));
    kinds.iter().skip(1).fold(first, |found, k| found.or_else(|e| read(*k).map_err(|_| e)))
}

/// Reports columns that two instruments read, by their own `reads` or by `[columns]`.
pub(super) fn report_shared(root: &Table<'_>, logs: &ColumnMaps, register: &ColumnMaps) {
    let mut readers: BTreeMap<String, String> = BTreeMap::new();
    for map in logs.iter().chain(register.iter()) {
        if let Some(id) = &map.instrument {
            readers.entry(map.name.clone()).or_insert_with(|| id.clone());
        }
    }
    for (id, item) in root.entries("instruments") {
        let Some(table) = item.table() else { continue };
        for column in table.texts("reads") {
            let first = readers.entry(column.clone()).or_insert_with(|| id.clone());
            if *first != id {
                let (first, second) = (first.clone(), id.clone());
                table.report(DatasetFact::ColumnReadTwice { column, first, second });
            }
        }
    }
}

/// Adds the columns that `[columns]` assigns to an instrument.
pub(super) fn link_columns(instruments: &mut BTreeMap<String, Instrument>, columns: &ColumnMaps) {
    for map in columns.iter() {
        let named = map.instrument.as_ref().and_then(|id| instruments.get_mut(id));
        if let Some(instrument) = named.filter(|i| !i.reads.contains(&map.name)) {
            instrument.reads.push(map.name.clone());
        }
    }
}
