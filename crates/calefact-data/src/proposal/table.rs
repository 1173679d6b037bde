//! A table of trials, one row a trial, such as one typed from a notebook: which column is which of the register.

use super::clock::{Days, Habits};
use super::facts::{TableColumn, TableProposal, UnitReason};
use super::head::Head;
use super::keywords::{self, TABLE};
use crate::register_columns::{self, Cell};
use crate::text::number::{self, NumberStyle};
use calefact_units::Kind;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Columns of the register, besides ids and days, that make a table one of trials.
const LEAST: usize = 2;

/// The proposal for a table, and its days; none if it is not a table of trials.
pub(super) fn propose(path: &Path, head: &Head, habits: Habits) -> Option<(TableProposal, Days)> {
    let mut columns: Vec<Option<TableColumn>> = Vec::new();
    for index in 0..head.headers.len() {
        let found = column(head, index, habits.us, &columns);
        columns.push(found);
    }
    let tells = |c: &&TableColumn| !matches!(c.column, "trial" | "date" | "note" | "ambient");
    let is_keyed = columns.iter().flatten().any(|c| matches!(c.column, "trial" | "date"));
    if !is_keyed || columns.iter().flatten().filter(tells).count() < LEAST {
        return None;
    }
    let further = head.headers.iter().zip(&columns).filter(|(h, c)| c.is_none() && !h.is_empty());
    let further: BTreeSet<String> = further.map(|(header, _)| header.clone()).collect();
    let further: Vec<String> = further.into_iter().collect();
    let date = columns.iter().position(|c| c.as_ref().is_some_and(|c| c.column == "date"));
    let dates: Vec<&str> = date.into_iter().flat_map(|at| head.cells(at)).collect();
    let days = Days::new(&dates, habits);
    let rows = head.rows.iter().map(|row| cells(head, row, &columns, &days)).collect();
    let columns = columns.into_iter().flatten().collect();
    Some((TableProposal { path: path.into(), columns, further, rows }, days))
}

fn column(head: &Head, index: usize, us: bool, before: &[Option<TableColumn>]) -> Option<TableColumn> {
    let header = &head.headers[index];
    let words = keywords::words(header);
    let numbers = !head.numbers(index).is_empty();
    let is_temperature =
        head.unit(index, &[Kind::Temperature]).is_some() || words.iter().any(|w| w.starts_with("temp"));
    let fits = |name: &str| match register_columns::column(name).map(|c| c.cell) {
        Some(Cell::Number(Kind::Temperature)) => numbers,
        Some(Cell::Number(_) | Cell::Water) if is_temperature => false,
        Some(Cell::Number(_) | Cell::Water) => numbers || head.cells(index).any(begins_with_digit),
        Some(Cell::Id) => !numbers,
        _ => true,
    };
    let is_free = |name: &str| before.iter().flatten().all(|c| c.column != name);
    let named = register_columns::column(&crate::text::header::canonical(crate::text::header::split_unit(header).0));
    let named = named.map(|c| (c.name, "")).filter(|(name, _)| fits(name) && is_free(name));
    let by_word = || keywords::fitting(&words, TABLE).map(|(name, word)| (*name, word));
    let (column, word) = named.or_else(|| by_word().find(|(name, _)| fits(name) && is_free(name)))?;
    let (unit, unit_reason) = unit(head, index, column, us);
    Some(TableColumn { header: header.clone(), column, word, unit, unit_reason })
}

fn begins_with_digit(cell: &str) -> bool {
    cell.starts_with(|c: char| c.is_ascii_digit())
}

/// Unit of a column of numbers. Cells that state their own need none.
fn unit(head: &Head, index: usize, column: &str, us: bool) -> (Option<&'static str>, UnitReason) {
    let kinds = match register_columns::column(column).map(|c| c.cell) {
        Some(Cell::Number(kind)) => vec![kind],
        Some(Cell::Water) => vec![Kind::Volume, Kind::Mass],
        _ => return (None, UnitReason::NotNeeded),
    };
    if let Some(unit) = head.unit(index, &kinds) {
        return (Some(unit.symbol), UnitReason::Stated);
    }
    if us && kinds[0] == Kind::Volume && keywords::words(&head.headers[index]).iter().any(|w| w.starts_with("gal")) {
        return (Some("gal_us"), UnitReason::Preference);
    }
    if head.numbers(index).len() < head.cells(index).count() {
        return (None, UnitReason::Stated);
    }
    let usual = match (kinds[0], us) {
        (Kind::Temperature, true) => "degF",
        (Kind::Mass, true) => "lb",
        (Kind::Temperature, false) => "degC",
        (Kind::Mass, false) => "kg",
        (Kind::Fraction, _) if head.numbers(index).iter().any(|v| *v > 1.0) => "%",
        _ => return (None, UnitReason::Nothing),
    };
    (Some(usual), if us { UnitReason::Preference } else { UnitReason::Nothing })
}

/// The cells of a row by column: numbers with a decimal point, days as ISO 8601, ids as they are.
fn cells(head: &Head, row: &[String], columns: &[Option<TableColumn>], days: &Days) -> BTreeMap<String, String> {
    let style = NumberStyle { sign: head.sign, missing: &[] };
    let filled = columns.iter().zip(&head.headers).zip(row).filter(|(_, cell)| !cell.is_empty());
    let mut cells = BTreeMap::new();
    for ((column, header), cell) in filled {
        let Some(column) = column else {
            cells.insert(header.clone(), cell.clone());
            continue;
        };
        let is_number = register_columns::column(column.column).is_some_and(|c| c.kind().is_some());
        let text = match style.read(cell.as_bytes()) {
            number::Cell::Number(value) if is_number => value.to_string(),
            number::Cell::Blank if is_number => continue,
            _ if column.column == "date" => days.day(cell).map_or_else(|| cell.clone(), |day| day.to_string()),
            _ => cell.clone(),
        };
        cells.insert(column.column.to_owned(), text);
    }
    if let Some(basis) = columns.iter().flatten().find(|c| c.column == "fuel_moisture").and_then(|c| basis(&c.header)) {
        cells.entry("moisture_basis".to_owned()).or_insert_with(|| basis.to_owned());
    }
    cells
}

/// The basis of a moisture that a header names.
fn basis(header: &str) -> Option<&'static str> {
    let words = keywords::words(header);
    let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
    if has(&["dry", "db"]) {
        return Some("dry");
    }
    has(&["wet", "wb"]).then_some("wet")
}
