//! `[defaults]`: values of the register's columns for rows that leave them blank. Keys and units follow from the one list of
//! columns.

use crate::fact::{DatasetFact, Misfit, Toml};
use crate::limits::{Limit, column_limit};
use crate::register_columns::{COLUMNS, Cell, MOISTURE_BASES, RegisterColumn, TRIAL_KINDS};
use crate::toml_source::{Item, Key, Range, Shape, TEXT, Table, TextForm, parse_water, words};
use crate::{Apparatus, ApparatusKind, DefaultCell, Defaults, Water, named};
use calefact_units::Kind;

/// Columns that can have a default.
const COUNT: usize = count();

const fn count() -> usize {
    let (mut at, mut count) = (0, 0);
    while at < COLUMNS.len() {
        count += !COLUMNS[at].per_trial as usize;
        at += 1;
    }
    count
}

/// The keys, one a column.
pub(super) const KEYS: [Key; COUNT] = keys();

const fn keys() -> [Key; COUNT] {
    let mut keys = [Key::optional("", TEXT, ""); COUNT];
    let (mut at, mut count) = (0, 0);
    while at < COLUMNS.len() {
        let column = &COLUMNS[at];
        if !column.per_trial {
            keys[count] = Key::optional(column.name, shape(column), column.meaning);
            count += 1;
        }
        at += 1;
    }
    keys
}

const fn shape(column: &RegisterColumn) -> Shape {
    match column.cell {
        Cell::Number(kind) => Shape::Quantity(kind, Range::Any),
        Cell::Water => Shape::Text(TextForm::Water),
        Cell::Text | Cell::Id => match column.name.as_bytes() {
            b"kind" => Shape::Word(|| words(&TRIAL_KINDS)),
            b"moisture_basis" => Shape::Word(|| words(&MOISTURE_BASES)),
            _ => TEXT,
        },
    }
}

/// Reads `[defaults]`. A value that does not fit is refused, so that no row is read without it.
pub(super) fn defaults(root: &Table<'_>, apparatus: &Apparatus) -> Defaults {
    let Some(table) = root.table("defaults") else { return Defaults::default() };
    let columns = COLUMNS.iter().filter(|c| !c.per_trial);
    let items = columns.filter_map(|column| Some((column, table.item(column.name)?)));
    let value =
        |column: &RegisterColumn, item: &Item<'_>| value(column, item, apparatus).unwrap_or(DefaultCell::Refused);
    Defaults::new(items.map(|(column, item)| (column.name.to_owned(), value(column, &item))).collect())
}

fn value(column: &RegisterColumn, item: &Item<'_>, apparatus: &Apparatus) -> Option<DefaultCell> {
    match column.cell {
        Cell::Number(kind) => {
            let value = item.number()?;
            is_possible(column, item, value, kind).then_some(DefaultCell::Number(value))
        }
        Cell::Water => {
            let water = parse_water(item.text()?).ok()?;
            let (value, kind) = match water {
                Water::Volume(m3) => (m3, Kind::Volume),
                Water::Mass(kg) => (kg, Kind::Mass),
            };
            is_possible(column, item, value, kind).then_some(DefaultCell::Water(water))
        }
        Cell::Text => text(item).map(DefaultCell::Text),
        Cell::Id => id(column, item, apparatus).map(DefaultCell::Text),
    }
}

/// Whether a number can be true, with a finding if not.
fn is_possible(column: &RegisterColumn, item: &Item<'_>, value: f64, kind: Kind) -> bool {
    let limit = column_limit(column.name, kind == Kind::Mass);
    let range = limit.map_or(Range::Any, Limit::range);
    // No water is no vessel of water.
    let range = if column.cell == Cell::Water && value == 0.0 { Range::Positive } else { range };
    let fits = range.holds(value);
    if !fits {
        let misfit = Misfit::Range { range, kind: Some(kind) };
        item.report(Toml::Value { key: format!("defaults.{}", column.name), misfit });
    }
    fits
}

fn text(item: &Item<'_>) -> Option<String> {
    item.text().map(str::trim).filter(|text| !text.is_empty()).map(Into::into)
}

fn id(column: &RegisterColumn, item: &Item<'_>, apparatus: &Apparatus) -> Option<String> {
    let id = text(item)?;
    let kind = ApparatusKind::from_column(column.name)?;
    let found = named::id(apparatus, kind, &id);
    if found.is_none() {
        item.report(DatasetFact::UnknownDefault { column: column.name, kind, id, known: apparatus.ids(kind) });
    }
    found
}
