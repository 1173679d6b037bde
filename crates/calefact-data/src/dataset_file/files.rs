//! `[columns]`, `[logs]` and `[register]`: how the data files are written.

use crate::Channel;
use crate::nearest;
use crate::text::header::{same_name, split_unit};
use crate::text::number::Decimal;
use crate::toml_source::{Item, Table};
use encoding_rs::Encoding;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// How a delimited file is written. What is not stated is found out per file.
#[derive(Debug, Clone, Default)]
pub struct FileStyle {
    /// Character between cells.
    pub delimiter: Option<u8>,
    /// Decimal sign.
    pub decimal: Option<Decimal>,
    /// Encoding.
    pub encoding: Option<&'static Encoding>,
    /// Lines above the header.
    pub skip_lines: Option<u64>,
    /// Further words for "no reading".
    pub missing: Vec<String>,
}

/// A foreign header and the canonical column it stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColumnMap {
    /// Canonical name.
    pub name: String,
    /// Header in the file, without the unit given beside it.
    pub header: String,
    /// Unit; a unit in the file's own header goes before it.
    pub unit: Option<String>,
    /// Instrument that read the column.
    pub instrument: Option<String>,
}

/// How the logs are written.
#[derive(Debug, Clone, Default)]
pub struct LogSettings {
    /// Style of the files.
    pub style: FileStyle,
    /// Foreign headers.
    pub columns: Vec<ColumnMap>,
    /// Header of the column that holds the trial id, where a file holds several trials.
    pub trial_column: Option<String>,
    /// `strptime` pattern of the clock column, such as `%d.%m.%Y %H:%M`.
    pub clock_format: Option<String>,
    /// Zone of the clock, to follow it through a change of clocks.
    pub time_zone: Option<TimeZone>,
    /// Day of the first reading, for clocks without a date where the register gives none.
    pub date: Option<Date>,
}

/// How the register is written.
#[derive(Debug, Clone, Default)]
pub struct RegisterSettings {
    /// Style of the file.
    pub style: FileStyle,
    /// Foreign headers.
    pub columns: Vec<ColumnMap>,
}

/// Keys of `[logs]`: `delimiter` (one character, or `tab`), `decimal` (`point`, `comma`), `encoding` (a WHATWG label),
/// `skip_lines`, `missing`, `trial_column`, `clock_format`, `time_zone` (IANA name), `date` (`YYYY-MM-DD`). Keys of
/// `[columns]`: canonical names, each with a header `"Barrel [degF]"` or a table `header`, `unit`, `instrument`.
pub(super) fn logs(root: &Table<'_>, instruments: &[&str]) -> LogSettings {
    let mut settings = LogSettings::default();
    if let Some(table) = root.table("logs") {
        settings.style = style(&table);
        settings.trial_column = table.string("trial_column");
        settings.clock_format = table.string("clock_format");
        settings.time_zone = table.optional("time_zone").and_then(|i| time_zone(&i));
        settings.date = table.optional("date").and_then(|i| date(&i));
        table.finish();
    }
    let known: Vec<&str> =
        ["elapsed", "clock"].into_iter().chain(Channel::ALL.map(Channel::name)).chain(["event", "note"]).collect();
    settings.columns = root.table("columns").map(|t| columns(&t, &known, instruments)).unwrap_or_default();
    settings
}

/// Keys of `[register]`: `delimiter`, `decimal`, `encoding`, `skip_lines`, `missing` as in `[logs]`, and a table `columns`.
pub(super) fn register(root: &Table<'_>, instruments: &[&str]) -> RegisterSettings {
    let Some(table) = root.table("register") else { return RegisterSettings::default() };
    let style = style(&table);
    let known = crate::register_file::COLUMNS;
    let columns = table.table("columns").map(|t| columns(&t, &known, instruments)).unwrap_or_default();
    table.finish();
    RegisterSettings { style, columns }
}

fn style(table: &Table<'_>) -> FileStyle {
    let decimals = [("point", Decimal::Point), ("comma", Decimal::Comma)];
    FileStyle {
        delimiter: table.optional("delimiter").and_then(|i| delimiter(&i)),
        decimal: table.optional("decimal").and_then(|i| i.word(&decimals)),
        encoding: table.optional("encoding").and_then(|i| encoding(&i)),
        skip_lines: table.integer("skip_lines").and_then(|n| u64::try_from(n).ok()),
        missing: table.array("missing").iter().filter_map(Item::string).collect(),
    }
}

fn delimiter(item: &Item<'_>) -> Option<u8> {
    let text = item.string()?;
    match text.as_bytes() {
        b"tab" => Some(b'\t'),
        [one] if one.is_ascii() && !one.is_ascii_alphanumeric() => Some(*one),
        _ => {
            item.error("bad-value", &format!("`{text}` is no delimiter"), "write one of \",\" \";\" \"|\" \"tab\"");
            None
        }
    }
}

fn encoding(item: &Item<'_>) -> Option<&'static Encoding> {
    let label = item.string()?;
    let found = Encoding::for_label(label.as_bytes());
    if found.is_none() {
        let hint = "write a name such as \"utf-8\", \"utf-16le\", \"windows-1252\"";
        item.error("unknown-word", &format!("unknown encoding `{label}`"), hint);
    }
    found
}

fn time_zone(item: &Item<'_>) -> Option<TimeZone> {
    let name = item.string()?;
    let found = TimeZone::get(&name).ok();
    if found.is_none() {
        item.error(
            "unknown-word",
            &format!("unknown time zone `{name}`"),
            "write an IANA name such as \"Europe/Oslo\"",
        );
    }
    found
}

fn date(item: &Item<'_>) -> Option<Date> {
    let text = item.string()?;
    let found = text.parse().ok();
    if found.is_none() {
        item.error("bad-value", &format!("`{text}` is no date"), "write it as \"2026-03-28\"");
    }
    found
}

/// The maps of a table; a header can stand for one column only, the first of the file.
fn columns(table: &Table<'_>, known: &[&str], instruments: &[&str]) -> Vec<ColumnMap> {
    let mut entries = table.entries();
    entries.sort_by_key(|(_, item)| item.start());
    let mut maps: Vec<ColumnMap> = Vec::new();
    for (name, item) in entries {
        let Some(map) = column(name, &item, known, instruments) else { continue };
        match maps.iter().find(|m| same_name(&m.header, &map.header)) {
            Some(first) => {
                let message =
                    format!("`{}` stands for the header `{}`, but so does `{}`", map.name, map.header, first.name);
                item.error("duplicate-column", &message, "give each column the header it has in the file");
            }
            None => maps.push(map),
        }
    }
    maps
}

fn column(name: String, item: &Item<'_>, known: &[&str], instruments: &[&str]) -> Option<ColumnMap> {
    if !known.contains(&name.as_str()) {
        item.error(
            "unknown-key",
            &format!("`{name}` is no canonical column"),
            &nearest::hint(&name, known.iter().copied()),
        );
        return None;
    }
    if !item.is_table() {
        let text = item.string()?;
        let (header, unit) = split_unit(&text);
        return Some(ColumnMap { name, header: header.into(), unit: unit.map(Into::into), instrument: None });
    }
    let table = item.table()?;
    let header = table.required_string("header");
    let unit = table.string("unit");
    let instrument = table.optional("instrument").and_then(|i| instrument(&i, instruments));
    table.finish();
    let header = header?;
    // With a unit of its own, a bracket in the header is part of its name: "Probe (left)".
    let (name_only, bracket) = if unit.is_some() { (header.as_str(), None) } else { split_unit(&header) };
    let unit = unit.or_else(|| bracket.map(Into::into));
    Some(ColumnMap { name, header: name_only.into(), unit, instrument })
}

fn instrument(item: &Item<'_>, known: &[&str]) -> Option<String> {
    let id = item.string()?;
    if known.contains(&id.as_str()) {
        return Some(id);
    }
    let hint = nearest::hint(&id, known.iter().copied());
    item.error("unknown-id", &format!("no instrument `{id}` is defined"), &hint);
    None
}
