//! `[instruments.ID]`.

use super::files::ColumnMap;
use super::stated::parse_spread;
use super::tolerance::parse_tolerance;
use super::{Table, column_kind};
use crate::Channel;
use crate::apparatus::{Instrument, Tolerance};
use crate::nearest;
use crate::toml_source::Item;
use calefact_units::Kind;
use std::collections::BTreeMap;

/// Columns of the register that an instrument may have read.
const REGISTER: [&str; 7] =
    ["water", "fuel_mass", "fuel_moisture", "kindling_mass", "leftover_fuel", "leftover_char", "heater_power"];

/// Keys: `name`; `reads`, the canonical columns of log and register; `tolerance`, one text or several that act
/// together (see [`parse_tolerance`]); `resolution`, the display step; `calibrated`.
pub(super) fn instrument(table: &Table<'_>) -> Instrument {
    let reads: Vec<String> = table.array("reads").iter().filter_map(column).collect();
    let kinds = kinds_of(table, &reads);
    let tolerance = table.optional("tolerance").map(|i| tolerances(&i, &kinds)).unwrap_or_default();
    let resolution = table.optional("resolution").and_then(|i| width(&i, &kinds));
    Instrument {
        name: table.required_string("name").unwrap_or_default(),
        reads,
        tolerance,
        resolution,
        calibrated: table.boolean("calibrated").unwrap_or(false),
    }
}

fn column(item: &Item<'_>) -> Option<String> {
    let name = item.string()?;
    let known: Vec<&str> = Channel::ALL.iter().map(|c| c.name()).chain(REGISTER).collect();
    if known.contains(&name.as_str()) {
        return Some(name);
    }
    let hint = nearest::hint(&name, known.iter().copied());
    item.error("unknown-word", &format!("`{name}` is no column an instrument can read"), &hint);
    None
}

/// The kinds a width may be written in: the one kind of what the instrument reads; `water` is measured by volume or
/// by mass and goes with either.
fn kinds_of(table: &Table<'_>, reads: &[String]) -> Vec<Kind> {
    let kinds: Vec<Kind> = reads.iter().filter(|n| *n != "water").filter_map(|n| column_kind(n)).collect();
    if reads.is_empty() {
        table.error(
            "missing-key",
            &format!("[{}] does not say what it `reads`", table.path()),
            "add `reads = [\"tank\"]`",
        );
    }
    let Some(first) = kinds.first().copied() else { return vec![Kind::Volume, Kind::Mass] };
    if kinds.iter().any(|k| *k != first) {
        let message = format!("[{}] reads columns of different kinds: {}", table.path(), reads.join(", "));
        table.error("bad-value", &message, "make one entry for each kind");
    }
    vec![first]
}

fn tolerances(item: &Item<'_>, kinds: &[Kind]) -> Vec<Tolerance> {
    let one = |i: &Item<'_>| {
        let text = i.string()?;
        let read = first_fit(kinds, |k| parse_tolerance(&text, k));
        read.map_err(|e| i.error("bad-tolerance", &e.to_string(), e.hint())).ok()
    };
    if item.is_array() {
        item.array().unwrap_or_default().iter().filter_map(one).collect()
    } else {
        one(item).into_iter().collect()
    }
}

fn width(item: &Item<'_>, kinds: &[Kind]) -> Option<f64> {
    let first = *kinds.first()?;
    let Some(text) = item.as_str() else { return item.quantity(first) };
    first_fit(kinds, |k| parse_spread(text, k)).map_err(|e| item.unit_error(&e)).ok()
}

/// The first kind that reads without error, else the error of the first kind.
fn first_fit<T, E>(kinds: &[Kind], read: impl Fn(Kind) -> Result<T, E>) -> Result<T, E> {
    let first = read(kinds.first().copied().unwrap_or(Kind::Fraction));
    kinds.iter().skip(1).fold(first, |found, k| found.or_else(|e| read(*k).map_err(|_| e)))
}

/// Adds the columns that `[columns]` assigns to an instrument.
pub(super) fn link_columns(instruments: &mut BTreeMap<String, Instrument>, columns: &[ColumnMap]) {
    for map in columns {
        let named = map.instrument.as_ref().and_then(|id| instruments.get_mut(id));
        if let Some(instrument) = named.filter(|i| !i.reads.contains(&map.name)) {
            instrument.reads.push(map.name.clone());
        }
    }
}
