//! The register of a dataset that is begun: the example, or one row a trial that the logs hold.

use super::example;
use super::request::{StarterRequest, id};
use crate::words::Units;
use calefact_data::{Proposal, TableProposal, TrialProposal};
use std::collections::BTreeMap;

/// Columns that a person fills in, in the order of the work.
const COLUMNS: [&str; 15] = [
    "trial",
    "kind",
    "date",
    "start",
    "end",
    "log",
    "stove",
    "fuel",
    "exchanger",
    "vessel",
    "water",
    "fuel_mass",
    "fuel_moisture",
    "moisture_basis",
    "kindling_mass",
];
const AFTER: [&str; 4] = ["leftover_fuel", "leftover_char", "ambient", "note"];

/// The text of the register.
pub(super) fn text(request: &StarterRequest<'_>) -> String {
    match &request.found {
        None => of_example(request),
        Some((proposal, logs)) => of_logs(request, proposal, logs),
    }
}

/// Columns of an example: what the defaults of `dataset.toml` do not fill.
fn of_example(request: &StarterRequest<'_>) -> String {
    let columns = ["trial", "date", "stove", "fuel", "water", "fuel_mass", "fuel_moisture"];
    let columns: Vec<&str> = columns.into_iter().chain(AFTER).collect();
    let cell = |column: &&str| match request.entries(column).first() {
        Some(entry) => entry.id.clone(),
        None => example::cell(column, request.units).to_owned(),
    };
    let rows =
        [columns.iter().map(|c| header(c, usual_unit(c, request.units))).collect(), columns.iter().map(cell).collect()];
    lines(&rows)
}

fn of_logs(request: &StarterRequest<'_>, proposal: &Proposal, logs: &[String]) -> String {
    let table = proposal.table.as_ref();
    let rows: Vec<BTreeMap<String, String>> = proposal
        .logs
        .iter()
        .zip(logs)
        .flat_map(|(log, name)| log.trials.iter().map(move |trial| row(table, trial, name)))
        .collect();
    let mut further = table.map(|t| t.further.clone()).unwrap_or_default();
    further.retain(|header| !COLUMNS.contains(&header.as_str()) && !AFTER.contains(&header.as_str()));
    let columns = COLUMNS.iter().map(|c| (*c).to_owned()).chain(further).chain(AFTER.map(str::to_owned));
    // A column that nothing fills and a default or nobody needs to fill is left out.
    let wanted = |column: &String| match column.as_str() {
        "start" | "end" | "exchanger" | "vessel" | "stove" | "fuel" | "water" => {
            rows.iter().any(|row| row.contains_key(column)) || is_open(request, column)
        }
        _ => true,
    };
    let columns: Vec<String> = columns.filter(wanted).collect();
    let in_table = |column: &str| table.and_then(|t| t.columns.iter().find(|c| c.column == column));
    let unit = |column: &str| in_table(column).map_or_else(|| usual_unit(column, request.units), |found| found.unit);
    let head = columns.iter().map(|c| header(c, unit(c))).collect();
    let cells =
        |row: &BTreeMap<String, String>| columns.iter().map(|c| row.get(c).cloned().unwrap_or_default()).collect();
    lines(&std::iter::once(head).chain(rows.iter().map(cells)).collect::<Vec<_>>())
}

/// Whether a column has to be filled by the person: nothing said, or several things said, and no default.
fn is_open(request: &StarterRequest<'_>, column: &str) -> bool {
    match column {
        "stove" | "fuel" => request.only(column).is_none(),
        "water" => request.water.is_none(),
        _ => false,
    }
}

/// The cells of a trial by column: what its log shows, and what the table of trials tells of it.
fn row(table: Option<&TableProposal>, trial: &TrialProposal, log: &str) -> BTreeMap<String, String> {
    let mut cells = trial.row.and_then(|row| table?.rows.get(row)).cloned().unwrap_or_default();
    for column in ["stove", "fuel", "exchanger", "vessel"] {
        if let Some(name) = cells.get_mut(column) {
            *name = id(name);
        }
    }
    let mut put = |column: &str, text: Option<String>| {
        if let Some(text) = text {
            cells.entry(column.to_owned()).or_insert(text);
        }
    };
    put("date", trial.date.clone());
    put("start", trial.clock.as_ref().map(|(first, _)| first.clone()));
    put("end", trial.clock.as_ref().map(|(_, last)| last.clone()));
    cells.insert("trial".to_owned(), trial.trial.clone());
    cells.insert("kind".to_owned(), trial.kind.name().to_owned());
    cells.insert("log".to_owned(), log.to_owned());
    cells
}

/// The unit of a column that the person fills in.
fn usual_unit(column: &str, units: Units) -> Option<&'static str> {
    let us = usize::from(units == Units::Us);
    Some(match column {
        "water" => ["L", "gal_us"][us],
        "fuel_mass" | "kindling_mass" | "leftover_fuel" | "leftover_char" => ["kg", "lb"][us],
        "fuel_moisture" => "%",
        "ambient" => ["degC", "degF"][us],
        _ => return None,
    })
}

/// A header with the unit of its numbers; none where each cell states its own.
fn header(column: &str, unit: Option<&str>) -> String {
    unit.map_or_else(|| column.to_owned(), |unit| format!("{column} [{unit}]"))
}

fn lines(rows: &[Vec<String>]) -> String {
    let line = |row: &Vec<String>| row.iter().map(|cell| quoted(cell)).collect::<Vec<_>>().join(",") + "\n";
    rows.iter().map(line).collect()
}

/// A cell as RFC 4180 writes it.
fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', '\n', '\r']) { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell.to_owned() }
}
