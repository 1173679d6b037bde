//! The header of the register: which column is what, in which unit.

use super::rows::Row;
use crate::column_maps::ColumnMaps;
use crate::fact::RegisterFact;
use crate::layout::RegisterSettings;
use crate::limits::column_limit;
use crate::register_columns::{self, COLUMNS, Cell, RegisterColumn};
use crate::text::cells::quoted;
use crate::text::date::{DayOrder, shown_order};
use crate::text::header::{canonical, split_unit};
use crate::text::number::DecimalSign;
use crate::text::sniff::{Votes, number_part};
use crate::{Defaults, Finding, nearest};
use calefact_units::{Kind, Unit, UnitError};

/// A column of the file.
pub(super) struct Column {
    /// Canonical name, or the header as written for a further column.
    pub(super) name: String,
    /// Unit of its numbers, if one is stated.
    pub(super) unit: Option<Unit>,
    /// Whether it is a canonical column.
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
    /// Character between cells.
    pub(super) delimiter: u8,
    /// Decimal sign.
    pub(super) sign: DecimalSign,
    /// Whether `dataset.toml` states it.
    pub(super) sign_is_stated: bool,
    /// Order of day and month in dates between slashes, where the dates of the register show it.
    pub(super) day_order: Option<DayOrder>,
    /// Whether the register is a sheet of a workbook.
    pub(super) is_sheet: bool,
    /// Words for a blank cell.
    pub(super) missing: Vec<String>,
    /// Values of blank cells.
    pub(super) defaults: Defaults,
}

/// Columns that a register can have: each may be a factor, which is looked at beside every other.
const MOST_COLUMNS: usize = 500;

/// Reads the header; `None`, with a finding, if a required column is missing or there are too many.
pub(super) fn read(
    rows: &[Row],
    delimiter: u8,
    settings: &RegisterSettings,
    findings: &mut Vec<Finding>,
) -> Option<Header> {
    let rank = |row: &&Row| (score(&row.cells, &settings.columns), std::cmp::Reverse(row.line));
    let Some(Row { line, cells, .. }) = rows.iter().max_by_key(rank) else {
        findings.push(Finding::error(RegisterFact::NoRow));
        return None;
    };
    if cells.len() > MOST_COLUMNS {
        let fact = RegisterFact::TooManyColumns { columns: cells.len(), most: MOST_COLUMNS };
        findings.push(Finding::error(fact).at("", Some(*line), None));
        return None;
    }
    let columns: Vec<Column> =
        cells.iter().zip(1..).map(|(c, n)| column(c, (*line, n), &settings.columns, findings)).collect();
    report_doubles(&columns, cells, (*line, &settings.columns), findings);
    let below = rows.iter().filter(|r| r.line > *line);
    let day_order = day_order(&columns, below.clone());
    let sign = settings.style.decimal.unwrap_or_else(|| sign(&columns, below, delimiter));
    let required = COLUMNS.iter().filter(|c| c.required && settings.defaults.get(c.name).is_none()).map(|c| c.name);
    let missing: Vec<&str> = required.filter(|name| !columns.iter().any(|c| c.name == *name)).collect();
    report_missing(&missing, cells, *line, findings).then(|| Header {
        columns,
        line: *line,
        delimiter,
        sign,
        day_order,
        sign_is_stated: settings.style.decimal.is_some() && !settings.style.is_sheet,
        is_sheet: settings.style.is_sheet,
        missing: settings.style.missing.clone(),
        defaults: settings.defaults.clone(),
    })
}

/// The decimal sign, by the cells of the columns that hold numbers.
fn sign<'r>(columns: &[Column], rows: impl Iterator<Item = &'r Row>, delimiter: u8) -> DecimalSign {
    let mut votes = Votes::default();
    for (column, cell) in rows.flat_map(|row| columns.iter().zip(&row.cells)) {
        let Some(kind) = register_columns::column(&column.name).filter(|_| column.known).and_then(RegisterColumn::kind)
        else {
            continue;
        };
        let unit = column.unit.or_else(|| cell_unit(cell, &column.name).ok()).unwrap_or(Unit::si(kind));
        let limit = column_limit(&column.name, unit.kind == Kind::Mass);
        votes.add(cell, |value| limit.is_none_or(|l| l.possible.contains(&unit.to_si(value))));
    }
    votes.sign(delimiter)
}

/// The order that all dates show that show one.
fn day_order<'r>(columns: &[Column], rows: impl Iterator<Item = &'r Row>) -> Option<DayOrder> {
    let at = columns.iter().position(|c| c.known && c.name == "date")?;
    let mut shown = rows.filter_map(|row| shown_order(row.cells.get(at)?));
    let first = shown.next()?;
    shown.all(|order| order == first).then_some(first)
}

/// The unit that a cell states behind its number.
fn cell_unit(cell: &str, name: &str) -> Result<Unit, UnitError> {
    let cell = cell.trim();
    Ok(parse_unit(cell[number_part(cell).len()..].trim(), name)?.unwrap_or(Unit::si(Kind::Fraction)))
}

fn score(cells: &[String], maps: &ColumnMaps) -> usize {
    cells.iter().filter(|c| find(c, maps).is_some()).count()
}

fn find<'m>(cell: &str, maps: &'m ColumnMaps) -> Option<(&'static str, Option<&'m str>)> {
    let mapped = maps.find(cell);
    let wanted = mapped.map_or_else(|| canonical(split_unit(cell).0), |m| m.name.clone());
    let known = register_columns::column(&wanted)?.name;
    Some((known, mapped.and_then(|m| m.unit.as_deref())))
}

fn column(cell: &str, at: (u64, u64), maps: &ColumnMaps, findings: &mut Vec<Finding>) -> Column {
    let unit = split_unit(cell).1.filter(|_| maps.find_whole(cell).is_none());
    let found = find(cell, maps).map(|(known, mapped)| (by_unit(known, unit), mapped));
    let Some((known, mapped_unit)) = found else {
        warn_near_miss(cell, at, findings);
        return Column { name: cell.to_string(), unit: None, known: false, spoilt: false };
    };
    let mut column = Column { name: known.to_string(), unit: None, known: true, spoilt: false };
    match unit.or(mapped_unit).map_or(Ok(None), |u| parse_unit(u, known)) {
        Ok(unit) => column.unit = unit,
        Err(error) => {
            column.spoilt = true;
            let fact = RegisterFact::HeaderUnit { column: known.into(), error };
            findings.push(Finding::error(fact).at("", Some(at.0), Some(at.1)));
        }
    }
    column
}

/// `fuel` is an id; with a unit it is the mass of the fuel.
fn by_unit(known: &'static str, unit: Option<&str>) -> &'static str {
    if known == "fuel" && unit.is_some() { "fuel_mass" } else { known }
}

/// Reports columns of one name; the first is read.
fn report_doubles(columns: &[Column], cells: &[String], (line, maps): (u64, &ColumnMaps), findings: &mut Vec<Finding>) {
    for (i, column) in columns.iter().enumerate().filter(|(_, c)| !c.name.is_empty()) {
        if let Some(first) = columns[..i].iter().position(|c| c.name == column.name) {
            let headers = [first, i].map(|at| quoted(&cells[at]).into());
            let is_mapped = [first, i].iter().any(|at| maps.find(&cells[*at]).is_some());
            let fact = RegisterFact::DuplicateColumn { column: column.name.clone(), headers, is_mapped };
            findings.push(Finding::error(fact).at("", Some(line), Some(i as u64 + 1)));
        }
    }
}

/// A longer header is no slip of a column, and comparing takes the product of both lengths.
const LONGEST: usize = 40;

/// A further column whose name is all but a canonical one is more likely a slip than a factor.
fn warn_near_miss(cell: &str, at: (u64, u64), findings: &mut Vec<Finding>) {
    let name = canonical(split_unit(cell).0);
    let resembles = |c: &str| (4..=LONGEST).contains(&name.len()) && strsim::damerau_levenshtein(c, &name) <= 2;
    if let Some(near) = COLUMNS.iter().map(|c| c.name).find(|c| resembles(c)) {
        let finding = Finding::warning(RegisterFact::UnknownColumn { header: quoted(cell).into(), near });
        findings.push(finding.at("", Some(at.0), Some(at.1)));
    }
}

/// The unit for a canonical column; water may be a volume or a mass.
fn parse_unit(text: &str, name: &str) -> Result<Option<Unit>, UnitError> {
    match register_columns::column(name).map(|c| c.cell) {
        Some(Cell::Number(kind)) => Unit::parse(text, kind).map(Some),
        Some(Cell::Water) => water_unit(text).map(Some),
        _ => Ok(None),
    }
}

/// The unit of water, a volume or a mass. An ounce may be either.
pub(super) fn water_unit(text: &str) -> Result<Unit, UnitError> {
    Unit::parse(text, Kind::Volume).or_else(|error| match error {
        UnitError::Ambiguous { .. } => Err(error),
        _ => Unit::parse(text, Kind::Mass).map_err(|_| error),
    })
}

/// Headers that a finding lists.
const LISTED: usize = 30;

fn report_missing(missing: &[&'static str], cells: &[String], line: u64, findings: &mut Vec<Finding>) -> bool {
    for column in missing {
        let near = cells.iter().find(|c| nearest(column, [split_unit(c).0]).is_some());
        let headers = cells.iter().take(LISTED).map(|c| quoted(c).into()).collect();
        let fact = RegisterFact::MissingColumn { column, near: near.map(|c| quoted(c).into()), headers };
        findings.push(Finding::error(fact).at("", Some(line), None));
    }
    missing.is_empty()
}
