//! The tidy tables, one file each, and the table that explains their columns.

mod balance;
mod balance_groups;
pub(crate) mod book;
mod budget;
mod builds;
mod contrasts;
mod estimates;
mod findings;
mod forecasts;
mod groups;
mod ids;
mod missing;
mod trends;
mod trials;

use crate::ReportError;
use crate::columns::Table;
use crate::readings::Batch;
use crate::table_files::TableFolder;
use crate::words::Wording;
use calefact_analysis::finding::Finding;
use calefact_analysis::result::{Analysis, Book, TrialResult};
use rayon::prelude::*;
use std::path::Path;

/// Number of tables that are written trial by trial.
pub(crate) const OF_TRIALS: usize = 5;

/// The rows that some trials, and some findings of no trial, add to the tables of trials.
pub(crate) fn of_trials<'a>(
    wording: &Wording<'_>,
    trials: &'a [TrialResult],
    others: &'a [Finding],
    base: &Path,
) -> [Table<'a>; OF_TRIALS] {
    let findings: Vec<&Finding> = trials.iter().flat_map(|t| &t.findings).chain(others).collect();
    [
        trials::table(trials),
        estimates::table(trials),
        missing::table(trials),
        balance::table(trials),
        findings::table(wording, &findings, base),
    ]
}

/// The tables of comparisons.
fn of_comparisons(analysis: &Analysis) -> Vec<Table<'_>> {
    let makers: [for<'a> fn(&'a Analysis) -> Table<'a>; 8] = [
        groups::table,
        contrasts::table,
        trends::table,
        budget::table,
        balance_groups::table,
        forecasts::table,
        builds::table,
        book::of_analysis,
    ];
    makers.into_par_iter().map(|make| make(analysis)).collect()
}

/// Writes the tables of comparisons, and the table of columns, which completes the folder: the tables of trials are there.
pub(crate) fn write(analysis: &Analysis, folder: &TableFolder) -> Result<(), ReportError> {
    let tables = of_comparisons(analysis);
    tables.par_iter().try_for_each(|table| folder.write(table))?;
    let batch = Batch::default();
    let readings = folder.formats().readings.then(|| batch.table());
    let of_trials = of_trials(&Wording::plain(), &[], &[], Path::new(""));
    let all: Vec<Table<'_>> = readings.into_iter().chain(of_trials).chain(tables).collect();
    complete(folder, &all)
}

/// Writes the tables of a book of fuel use, and the table of columns.
pub(crate) fn write_book(book: &Book, analysis: &Analysis, folder: &TableFolder) -> Result<(), ReportError> {
    let tables = book::tables(book, analysis);
    tables.iter().try_for_each(|table| folder.write(table))?;
    complete(folder, &tables)
}

fn complete(folder: &TableFolder, tables: &[Table<'_>]) -> Result<(), ReportError> {
    let names: Vec<&str> = tables.iter().map(|table| table.name).collect();
    folder.finish(&explain(tables), &names)
}

/// The table that explains the columns of the others, and its own.
fn explain<'a>(tables: &'a [Table<'a>]) -> Table<'a> {
    let own = explained(&[]);
    let described: Vec<Described<'_>> = tables.iter().chain([&own]).flat_map(Described::columns).collect();
    explained(&described)
}

/// What is told of a column.
#[derive(Clone, Copy)]
struct Described<'a> {
    table: &'static str,
    column: &'a str,
    kind: &'static str,
    unit: &'static str,
    meaning: &'static str,
}

impl<'a> Described<'a> {
    fn columns(table: &'a Table<'_>) -> impl Iterator<Item = Self> {
        table.columns.iter().map(|column| Self {
            table: table.name,
            column: &column.name,
            kind: column.values.kind(),
            unit: column.unit,
            meaning: column.meaning,
        })
    }
}

fn explained<'a>(rows: &[Described<'_>]) -> Table<'a> {
    let texts = |get: fn(&Described<'_>) -> &'static str| rows.iter().map(get);
    Table::new("columns")
        .text("table", "table the column belongs to", texts(|r| r.table))
        .text("column", "header of the column", rows.iter().map(|r| r.column.to_owned()))
        .text("type", "`string`, `number`, `integer` or `boolean`, as Data Package names types", texts(|r| r.kind))
        .text("unit", "unit of the column", texts(|r| r.unit))
        .text("meaning", "what it holds", texts(|r| r.meaning))
}
