//! The header of the register: which column is what, in which unit.

use super::{COLUMNS, REQUIRED, Row};
use crate::dataset_file::{ColumnMap, RegisterSettings, column_kind};
use crate::text::cells::quoted;
use crate::text::header::{canonical, same_name, split_unit};
use crate::text::number::Decimal;
use crate::text::{sniff, units};
use crate::{Finding, nearest};
use calefact_units::{Kind, Unit};

/// A column of the file.
pub(super) struct Column {
    /// Canonical name, or the header as written for a further column.
    pub(super) name: String,
    /// Unit of its numbers, if one is stated.
    pub(super) unit: Option<Unit>,
    /// Whether it is one of [`COLUMNS`].
    pub(super) known: bool,
    /// Whether its unit could not be read: its numbers mean nothing then.
    pub(super) spoilt: bool,
}

/// The header and the style of the numbers below it.
pub(super) struct Header {
    /// Columns in the order of the file.
    pub(super) columns: Vec<Column>,
    /// Line of the header.
    pub(super) line: u64,
    /// Decimal sign.
    pub(super) decimal: Decimal,
    /// Words for a blank cell.
    pub(super) missing: Vec<String>,
}

/// Reads the header; `None`, with a finding, if a required column is missing.
pub(super) fn read(rows: &[Row], settings: &RegisterSettings, findings: &mut Vec<Finding>) -> Option<Header> {
    let rank = |row: &&Row| (score(&row.cells, &settings.columns), std::cmp::Reverse(row.line));
    let Some(Row { line, cells, .. }) = rows.iter().max_by_key(rank) else {
        findings.push(Finding::error_text("register-empty", "the register holds no row"));
        return None;
    };
    let columns: Vec<Column> =
        cells.iter().zip(1..).map(|(c, n)| column(c, (*line, n), &settings.columns, findings)).collect();
    report_doubles(&columns, *line, findings);
    let sample = rows.iter().filter(|r| r.line > *line).flat_map(|r| &r.cells).map(String::as_str);
    let semicolon = settings.style.delimiter.unwrap_or(b';');
    let decimal = settings.style.decimal.unwrap_or_else(|| sniff::decimal(sample, semicolon));
    let missing: Vec<&str> = REQUIRED.into_iter().filter(|r| !columns.iter().any(|c| c.name == *r)).collect();
    report_missing(&missing, cells, *line, findings).then(|| Header {
        columns,
        line: *line,
        decimal,
        missing: settings.style.missing.clone(),
    })
}

fn score(cells: &[String], maps: &[ColumnMap]) -> usize {
    cells.iter().filter(|c| find(split_unit(c).0, c, maps).is_some()).count()
}

fn find<'m>(name: &str, whole: &str, maps: &'m [ColumnMap]) -> Option<(&'static str, Option<&'m str>)> {
    let mapped = maps.iter().find(|m| same_name(&m.header, name) || same_name(&m.header, whole));
    let wanted = mapped.map_or_else(|| canonical(name), |m| m.name.clone());
    let known = COLUMNS.into_iter().find(|c| *c == wanted)?;
    Some((known, mapped.and_then(|m| m.unit.as_deref())))
}

fn column(cell: &str, at: (u64, u64), maps: &[ColumnMap], findings: &mut Vec<Finding>) -> Column {
    let (name, unit) = split_unit(cell);
    let unit = unit.filter(|_| maps.iter().all(|m| !same_name(&m.header, cell)));
    let found = find(name, cell, maps).map(|(known, mapped)| (by_unit(known, unit), mapped));
    let Some((known, mapped_unit)) = found else {
        warn_near_miss(cell, at, findings);
        return Column { name: cell.to_string(), unit: None, known: false, spoilt: false };
    };
    let mut column = Column { name: known.to_string(), unit: None, known: true, spoilt: false };
    match unit.or(mapped_unit).map_or(Ok(None), |u| parse_unit(u, known)) {
        Ok(unit) => column.unit = unit,
        Err(finding) => {
            column.spoilt = true;
            let finding = finding.at("", Some(at.0), Some(at.1));
            findings.push(finding.action("its values are not used"));
        }
    }
    column
}

/// `fuel` is an id; with a unit it is the mass of the fuel.
fn by_unit(known: &'static str, unit: Option<&str>) -> &'static str {
    if known == "fuel" && unit.is_some() { "fuel_mass" } else { known }
}

/// Reports columns that stand for the same canonical one; the first is read.
fn report_doubles(columns: &[Column], line: u64, findings: &mut Vec<Finding>) {
    for (i, column) in columns.iter().enumerate().filter(|(_, c)| c.known) {
        if columns[..i].iter().any(|c| c.name == column.name) {
            let finding = Finding::error_text("duplicate-column", format!("a second column for `{}`", column.name));
            findings.push(finding.at("", Some(line), Some(i as u64 + 1)).action("the first one is read"));
        }
    }
}

/// A further column whose name is all but a canonical one is more likely a slip than a factor.
fn warn_near_miss(cell: &str, at: (u64, u64), findings: &mut Vec<Finding>) {
    let name = canonical(split_unit(cell).0);
    let near = COLUMNS.into_iter().find(|c| name.len() > 3 && strsim::damerau_levenshtein(c, &name) <= 2);
    if let Some(near) = near {
        let finding =
            Finding::warning_text("unknown-column", format!("the column `{cell}` is none the register knows"))
                .action("kept as a further column")
                .hint(format!("did you mean `{near}`?"));
        findings.push(finding.at("", Some(at.0), Some(at.1)));
    }
}

/// The unit for a canonical column; water may be a volume or a mass.
fn parse_unit(text: &str, name: &str) -> Result<Option<Unit>, Box<Finding>> {
    let Some(kind) = column_kind(name) else { return Ok(None) };
    let parsed = Unit::parse(text, kind);
    let parsed =
        if name == "water" { parsed.or_else(|e| Unit::parse(text, Kind::Mass).map_err(|_| e)) } else { parsed };
    parsed.map(Some).map_err(|e| {
        let finding = Finding::error_text(units::code(&e), format!("column `{name}`: {e}"));
        units::hint(&e).into_iter().fold(finding, Finding::hint).into()
    })
}

/// The first columns of a header, by name.
fn names(cells: &[String]) -> String {
    cells.iter().take(30).map(|c| quoted(c)).collect::<Vec<_>>().join(", ")
}

fn report_missing(missing: &[&str], cells: &[String], line: u64, findings: &mut Vec<Finding>) -> bool {
    for name in missing {
        let hint = cells
            .iter()
            .find(|c| nearest::nearest(name, [split_unit(c).0]).is_some())
            .map_or_else(|| format!("columns found: {}", names(cells)), |c| format!("is it `{c}`?"));
        let finding = Finding::error_text("missing-column", format!("the register lacks the column `{name}`"));
        findings.push(finding.at("", Some(line), None).action("no trial read").hint(hint));
    }
    missing.is_empty()
}
