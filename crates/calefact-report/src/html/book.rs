//! The page of the book of fuel use: one table to print and hang up, with filters.

use super::grid::Text;
use crate::ReportError;
use crate::manifest::ToolInfo;
use crate::words::forecast::SpreadWords;
use crate::words::{Wording, book, capital, printable};
use askama::Template;
use calefact_analysis::result::{Analysis, Book, BookEntry, BookMeasure, CombinationIds, RigsLine, Work};
use calefact_data::ApparatusKind;
use std::collections::BTreeMap;

/// Rows from which the print is set smaller, so that they stay on one sheet; and smaller again.
const MANY: usize = 9;
const VERY_MANY: usize = 19;

#[derive(Template)]
#[template(path = "book.html")]
struct Page<'a> {
    title: &'a str,
    invented: bool,
    summary: Text,
    season: &'static str,
    level: Text,
    density: &'static str,
    works: Vec<(Text, Text)>,
    filters: Vec<Filter>,
    rows: Vec<Row>,
    rigs: Vec<(Text, Text, Text, Text)>,
    has_rigs: bool,
    any_outside: bool,
    tool: &'a ToolInfo,
}

/// A choice of stove, fuel or exchanger.
struct Filter {
    column: &'static str,
    label: Text,
    options: Vec<(Text, Text)>,
}

/// A combination on a rig.
struct Row {
    name: Text,
    rig: Text,
    behind: Text,
    ids: CombinationIds,
    cells: Vec<Cell>,
}

/// Measures of one work.
#[derive(Default)]
struct Cell {
    wood: Option<SpreadWords>,
    time: Option<SpreadWords>,
    cost: Option<SpreadWords>,
    is_outside: bool,
}

/// Renders the page.
pub(crate) fn page(w: &Wording<'_>, book: &Book, analysis: &Analysis, tool: &ToolInfo) -> Result<String, ReportError> {
    let works = works(book);
    let mut rows: Vec<Row> = book.entries.iter().map(|entry| row(w, entry, &works)).collect();
    rows.sort_by(|a, b| (&a.name, &a.rig).cmp(&(&b.name, &b.rig)));
    let page = Page {
        title: &analysis.title,
        invented: analysis.invented,
        summary: book::summary(&book.entries),
        season: book::SEASON,
        level: w.confidence(analysis.level),
        density: match rows.len() {
            n if n < MANY => "few",
            n if n < VERY_MANY => "many",
            _ => "very-many",
        },
        works: works.iter().map(|work| book::work(w, work)).collect(),
        filters: filters(w, book),
        has_rigs: book.entries.iter().any(|e| e.rig != book.entries[0].rig),
        any_outside: rows.iter().flat_map(|row| &row.cells).any(|cell| cell.is_outside),
        rows,
        rigs: rigs(w, book),
        tool,
    };
    page.render().map(printable).map_err(|e| ReportError::Draw { what: "book.html".to_owned(), message: e.to_string() })
}

/// A kWh of heat, then the jobs of the rig that comes first, which is the own one.
fn works(book: &Book) -> Vec<&Work> {
    let own = book.entries.first().map(|e| e.rig.as_str());
    let mut works = Vec::new();
    for entry in book.entries.iter().filter(|e| Some(e.rig.as_str()) == own) {
        for line in &entry.lines {
            if !works.contains(&&line.work) {
                works.push(&line.work);
            }
        }
    }
    works.sort_by_key(|work| **work != Work::Heat);
    works
}

fn row(w: &Wording<'_>, entry: &BookEntry, works: &[&Work]) -> Row {
    Row {
        name: book::entry_name(w, entry),
        rig: entry.rig.clone(),
        behind: book::behind(entry),
        ids: entry.combination.clone(),
        cells: works.iter().map(|work| cell(w, entry, work)).collect(),
    }
}

fn cell(w: &Wording<'_>, entry: &BookEntry, work: &Work) -> Cell {
    let line = |measure| entry.place(work, measure).map(|place| &entry.lines[place]);
    let words = |measure| Some(book::figure(w, measure, entry.currency.as_deref(), &line(measure)?.spread));
    Cell {
        wood: words(BookMeasure::Wood),
        time: words(BookMeasure::Time),
        cost: words(BookMeasure::Cost),
        is_outside: line(BookMeasure::Time).is_some_and(|line| line.is_outside),
    }
}

/// A filter for each of stove, fuel and exchanger that has two levels or more.
fn filters(w: &Wording<'_>, book: &Book) -> Vec<Filter> {
    type Level = fn(&CombinationIds) -> &Option<String>;
    let kinds: [(&str, ApparatusKind, Level); 3] = [
        ("stove", ApparatusKind::Stove, |c| &c.stove),
        ("fuel", ApparatusKind::Fuel, |c| &c.fuel),
        ("exchanger", ApparatusKind::Exchanger, |c| &c.exchanger),
    ];
    let filter = |(column, kind, level): (&'static str, ApparatusKind, Level)| {
        let ids = book.entries.iter().filter_map(|e| level(&e.combination).as_deref());
        let options: BTreeMap<&str, Text> = ids.map(|id| (id, w.apparatus(kind, id))).collect();
        let options = options.into_iter().map(|(id, name)| (id.to_owned(), name)).collect();
        Filter { column, label: capital(column), options }
    };
    kinds.into_iter().map(filter).filter(|filter| filter.options.len() > 1).collect()
}

/// The figures of several rigs: combination, work, measure and words.
fn rigs(w: &Wording<'_>, book: &Book) -> Vec<(Text, Text, Text, Text)> {
    let row = |line: &RigsLine| {
        let (work, what) = book::work(w, &line.work);
        let name = book::combination_name(w, &line.combination);
        (name, format!("{work} {what}"), line.measure.id().to_owned(), book::rigs(w, line))
    };
    book.rigs.iter().map(row).collect()
}
