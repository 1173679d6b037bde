//! The text of the register.

use super::number::fixed;
use super::style::Style;
use calefact_data::register_columns::{self, Cell, RegisterColumn};
use calefact_data::{RegisterRow, Water};
use calefact_units::Kind;

/// US gallons in a cubic metre (231 cubic inches a gallon, NIST SP 811).
const GALLONS: f64 = 1.0 / 3.785_411_784e-3;
/// Kilograms in a pound (NIST SP 811).
const POUND: f64 = 0.453_592_37;

/// Which columns a register has, beside those every register has.
#[derive(Debug, Clone)]
pub(crate) struct Columns {
    /// Canonical columns that are left out.
    pub(crate) left_out: Vec<&'static str>,
    /// Further columns, written before the reason to exclude a trial.
    pub(crate) further: Vec<&'static str>,
}

/// The register of trials and the style each is written in.
pub(crate) fn register_csv<'a>(rows: impl Iterator<Item = (&'a RegisterRow, Style)>, wanted: &Columns) -> String {
    let columns = columns(wanted);
    let header: Vec<String> = columns.iter().map(|name| format!("{name}{}", unit(name))).collect();
    let mut text = header.join(",") + "\n";
    for (row, style) in rows {
        let cells: Vec<String> = columns.iter().map(|name| quoted(&cell(row, name, style))).collect();
        text.push_str(&cells.join(","));
        text.push('\n');
    }
    text
}

fn columns(wanted: &Columns) -> Vec<&'static str> {
    let mut columns = register_columns::names();
    columns.retain(|name| !wanted.left_out.contains(name));
    let end = columns.iter().position(|name| *name == "exclude").unwrap_or(columns.len());
    columns.splice(end..end, wanted.further.iter().copied());
    columns
}

/// The unit of a column, as the header gives it.
fn unit(column: &str) -> &'static str {
    match register_columns::column(column).map(|c| c.cell) {
        Some(Cell::Water) => " [US gal]",
        Some(Cell::Number(Kind::Mass)) => " [kg]",
        Some(Cell::Number(Kind::Fraction)) => " [%]",
        Some(Cell::Number(Kind::Power)) => " [W]",
        _ => "",
    }
}

fn cell(row: &RegisterRow, column: &str, style: Style) -> String {
    match column {
        "trial" => row.trial.clone(),
        "log" => row.log.to_string_lossy().into_owned(),
        "water" => match row.water {
            Water::Volume(m3) => fixed(m3 * GALLONS, 1),
            Water::Mass(kg) => format!("{} kg", fixed(kg, 1)),
        },
        "moisture_basis" => row.moisture_basis.map_or("", |_| "dry").to_owned(),
        "exclude" => row.exclude.clone().unwrap_or_default(),
        "note" => row.note.clone().unwrap_or_default(),
        _ => match register_columns::column(column).and_then(RegisterColumn::kind) {
            Some(kind) => row.number(column).map(|value| number(value, kind, style)).unwrap_or_default(),
            None => row.level(column).unwrap_or_default().to_owned(),
        },
    }
}

fn number(value: f64, kind: Kind, style: Style) -> String {
    match kind {
        Kind::Mass => weight(value, style.pounds),
        Kind::Fraction => fixed(100.0 * value, 1),
        _ => fixed(value, 0),
    }
}

/// Kilograms, or pounds with the unit in the cell.
fn weight(kg: f64, pounds: bool) -> String {
    if pounds { format!("{} lb", fixed(kg / POUND, 2)) } else { fixed(kg, 2) }
}

/// A cell, in quotes if it holds a comma or a quote.
fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', '\n']) { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell.to_owned() }
}
