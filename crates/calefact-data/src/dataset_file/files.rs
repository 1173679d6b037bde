//! `[columns]`, `[logs]` and `[register]`: how the data files are written.

use crate::column_maps::{ColumnMap, ColumnMaps};
use crate::fact::DatasetFact;
use crate::layout::{FileStyle, LogSettings, RegisterSettings};
use crate::text::header::split_unit;
use crate::text::number::Decimal;
use crate::toml_source::{Item, Table, delimiter};
use encoding_rs::Encoding;
use jiff::tz::TimeZone;
use std::sync::Arc;

/// Words for the decimal sign.
pub(super) const DECIMALS: [(&str, Decimal); 2] = [("point", Decimal::Point), ("comma", Decimal::Comma)];

/// Reads `[logs]` and `[columns]`.
pub(super) fn logs(root: &Table<'_>, instruments: &[&str]) -> LogSettings {
    let columns = Arc::new(columns(root, instruments));
    let Some(table) = root.table("logs") else { return LogSettings { columns, ..LogSettings::default() } };
    LogSettings {
        style: style(&table),
        columns,
        trial_columns: texts(&table, "trial_column"),
        clock_format: table.text("clock_format").map(Into::into),
        time_zone: table.text("time_zone").and_then(|name| TimeZone::get(name).ok()),
        date: table.text("date").and_then(|text| text.parse().ok()),
    }
}

/// Reads `[register]`.
pub(super) fn register(root: &Table<'_>, instruments: &[&str]) -> RegisterSettings {
    let Some(table) = root.table("register") else { return RegisterSettings::default() };
    RegisterSettings { style: style(&table), columns: columns(&table, instruments), ..RegisterSettings::default() }
}

fn style(table: &Table<'_>) -> FileStyle {
    FileStyle {
        delimiter: table.text("delimiter").and_then(delimiter),
        decimal: table.word("decimal", &DECIMALS).map(Into::into),
        encoding: table.text("encoding").and_then(|label| Encoding::for_label(label.as_bytes())),
        skip_lines: table.integer("skip_lines").and_then(|n| u64::try_from(n).ok()),
        missing: table.texts("missing"),
        is_sheet: false,
    }
}

/// The maps under `columns`; a header can stand for one column only, the first of the file.
fn columns(table: &Table<'_>, instruments: &[&str]) -> ColumnMaps {
    let mut maps = ColumnMaps::default();
    for (name, item) in table.entries("columns") {
        let mut reader: Option<String> = None;
        for header in item.each() {
            let Some(map) = column(name.clone(), &header, instruments) else { continue };
            let (column, written, instrument) = (map.name.clone(), map.header.clone(), map.instrument.clone());
            if let Err(first) = maps.add(map) {
                header.report(DatasetFact::SharedHeader { column, header: written, first: first.name.clone() });
            } else if let Some(second) = instrument {
                let first = reader.get_or_insert_with(|| second.clone()).clone();
                if first != second {
                    header.report(DatasetFact::ColumnReadTwice { column, first, second });
                }
            }
        }
    }
    maps
}

/// A text, or the texts of a list.
fn texts(table: &Table<'_>, key: &str) -> Vec<String> {
    let items = table.item(key).map(Item::each).unwrap_or_default();
    items.iter().filter_map(|item| item.text().map(Into::into)).collect()
}

fn column(name: String, item: &Item<'_>, instruments: &[&str]) -> Option<ColumnMap> {
    if let Some(text) = item.text() {
        let (header, unit) = split_unit(text);
        return Some(ColumnMap { name, header: header.into(), unit: unit.map(Into::into), instrument: None });
    }
    let table = item.table()?;
    let unit = table.text("unit");
    let instrument = table.item("instrument").and_then(|i| instrument(&i, instruments));
    let header = table.text("header")?;
    // With a unit of its own, a bracket in the header is part of its name: "Probe (left)".
    let (header, bracket) = if unit.is_some() { (header, None) } else { split_unit(header) };
    Some(ColumnMap { name, header: header.into(), unit: unit.or(bracket).map(Into::into), instrument })
}

fn instrument(item: &Item<'_>, known: &[&str]) -> Option<String> {
    let id = item.text()?;
    if known.contains(&id) {
        return Some(id.into());
    }
    let known = known.iter().map(ToString::to_string).collect();
    item.report(DatasetFact::UnknownInstrument { id: id.into(), known });
    None
}
