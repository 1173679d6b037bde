//! Whether what a row names exists: stove, fuel, exchanger, vessel; and whether its trial id is its own.

use super::cells::Cells;
use crate::apparatus::{Fuel, FuelClass};
use crate::fact::RegisterFact;
use crate::text::header::{canonical, same_name};
use crate::{Apparatus, ApparatusKind, RegisterRow};
use std::collections::BTreeMap;

/// The id in a column: one as written, or the one entry whose id or name differs from the cell in case and spaces alone. Another
/// is reported.
pub(super) fn id(cells: &mut Cells<'_>, column: &'static str, apparatus: &Apparatus) -> Option<String> {
    let cell = cells.text(column)?;
    let entries = entries(column, apparatus);
    if entries.iter().any(|(id, _)| *id == cell) {
        return Some(cell);
    }
    let is_it = |(id, name): &&(&str, &str)| canonical(id) == canonical(&cell) || same_name(name, &cell);
    let mut found = entries.iter().filter(is_it);
    if let (Some((id, _)), None) = (found.next(), found.next()) {
        return Some((*id).to_owned());
    }
    let usual = USUAL_FUELS.iter().find(|(id, _)| column == "fuel" && *id == canonical(&cell));
    if usual.is_none() {
        let (kind, known) = (ApparatusKind::from_column(column)?, entries.iter().map(|(id, _)| (*id).to_owned()));
        let fact = RegisterFact::UnknownId { kind, id: cell.clone(), known: known.collect() };
        cells.error(column, fact);
    }
    Some(usual.map_or(cell, |(id, _)| (*id).to_owned()))
}

/// Fuels that need no entry: wood of a class alone. Softwood is that of conifers, hardwood that of broadleaves; common practice, no
/// source.
const USUAL_FUELS: [(&str, FuelClass); 2] = [("softwood", FuelClass::Coniferous), ("hardwood", FuelClass::Broadleaf)];

/// Adds the usual fuels that rows name and no entry describes.
pub(crate) fn add_usual_fuels(apparatus: &mut Apparatus, rows: &[RegisterRow]) {
    for (id, class) in USUAL_FUELS {
        if rows.iter().any(|row| row.fuel.as_deref() == Some(id)) {
            let fuel = || Fuel { name: id.into(), class: Some(class), ..Fuel::default() };
            apparatus.fuels.entry(id.into()).or_insert_with(fuel);
        }
    }
}

/// Ids and names of the entries that a column names.
fn entries<'a>(column: &str, apparatus: &'a Apparatus) -> Vec<(&'a str, &'a str)> {
    fn pairs<T>(entries: &BTreeMap<String, T>, name: fn(&T) -> &String) -> Vec<(&str, &str)> {
        entries.iter().map(|(id, entry)| (id.as_str(), name(entry).as_str())).collect()
    }
    match column {
        "stove" => pairs(&apparatus.stoves, |e| &e.name),
        "fuel" => pairs(&apparatus.fuels, |e| &e.name),
        "exchanger" => pairs(&apparatus.exchangers, |e| &e.name),
        _ => pairs(&apparatus.vessels, |e| &e.name),
    }
}

/// Reports a trial id that an earlier row, by its line, has.
pub(super) fn check_duplicate(cells: &mut Cells<'_>, earlier: &BTreeMap<String, u64>) {
    let Some(trial) = cells.text("trial") else { return };
    if let Some(&line) = earlier.get(&trial) {
        cells.error("trial", RegisterFact::DuplicateTrial { trial, line });
    }
}
