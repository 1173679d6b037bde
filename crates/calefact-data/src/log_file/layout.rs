//! The line of a log's header, and how its cells are delimited.

use super::columns::{self, Columns, TimeForm};
use crate::fact::Log;
use crate::layout::LogSettings;
use crate::text::cells::{preview, quoted};
use crate::text::number::{Decimal, DecimalSign};
use crate::text::sniff::{self, Votes};
use crate::{Finding, Severity};

/// Layout of a log.
#[derive(Debug, Clone)]
pub(super) struct Layout {
    pub(super) delimiter: u8,
    pub(super) sign: DecimalSign,
    /// Line of the first header.
    pub(super) line: u64,
    pub(super) columns: Columns,
}

struct Candidate {
    delimiter: u8,
    line: u64,
    cells: Vec<String>,
    columns: Columns,
}

/// Finds the row with most known headers under any delimiter; an error finding if no row names time and tank.
pub(super) fn find(text: &[u8], settings: &LogSettings) -> Result<Layout, Box<Finding>> {
    let delimiters: Vec<u8> = settings.style.delimiter.map_or_else(|| sniff::DELIMITERS.to_vec(), |d| vec![d]);
    let first_row = |d: &u8| best(text, settings, &[*d], 1).filter(is_plain);
    let best = delimiters.iter().find_map(first_row).or_else(|| best(text, settings, &delimiters, sniff::ROWS));
    let Some(mut best) = best.filter(|b| b.columns.recognised > 0) else {
        return Err(no_header(text, settings).into());
    };
    if !best.columns.findings.is_empty() {
        best.columns = columns::resolve(&best.cells, best.line, settings);
    }
    settle_time(text, &mut best)?;
    if !best.columns.is_complete() {
        return Err(incomplete(&best).into());
    }
    let sign = settings.style.decimal.unwrap_or_else(|| sign(text, &best));
    best.columns.headers = best.cells;
    Ok(Layout { delimiter: best.delimiter, sign, line: best.line, columns: best.columns })
}

/// Settles a column `time` by the rows below the header.
fn settle_time(text: &[u8], header: &mut Candidate) -> Result<(), Box<Finding>> {
    let Some((index, TimeForm::Open)) = header.columns.time else { return Ok(()) };
    let rows = preview(text, header.delimiter, sniff::ROWS);
    let below = rows.iter().filter(|(line, _)| *line > header.line);
    let cells = below.filter_map(|(_, cells)| cells.get(index).map(String::as_str));
    header.columns.settle_time(cells).map_err(|cell| {
        let fact = Log::TimeWithoutUnit { header: quoted(&header.cells[index]).into(), cell };
        Finding::from(fact).at("", Some(header.line), Some(index as u64 + 1)).into()
    })
}

/// A first row that is complete and has no unknown column is the header.
fn is_plain(candidate: &Candidate) -> bool {
    candidate.columns.is_complete() && candidate.columns.findings.is_empty()
}

fn best(text: &[u8], settings: &LogSettings, delimiters: &[u8], rows: usize) -> Option<Candidate> {
    let skip = settings.style.skip_lines;
    let rows = skip.map_or(rows, |n| n as usize + 1);
    let mut best: Option<Candidate> = None;
    for delimiter in delimiters.iter().copied() {
        let rows = preview(text, delimiter, rows).into_iter().filter(|(line, _)| skip.is_none_or(|n| *line > n));
        for (line, cells) in rows.take(if skip.is_some() { 1 } else { usize::MAX }) {
            let columns = columns::try_row(&cells, line, settings);
            let rank = |c: &Columns| (c.is_complete(), c.recognised);
            if best.as_ref().is_none_or(|b| rank(&columns) > rank(&b.columns)) {
                best = Some(Candidate { delimiter, line, cells, columns });
            }
        }
    }
    best
}

/// The decimal sign, by the cells of the columns that hold numbers.
fn sign(text: &[u8], header: &Candidate) -> DecimalSign {
    if header.delimiter == b',' && !text.contains(&b'"') {
        return Decimal::Point.into();
    }
    let Columns { time, values, .. } = &header.columns;
    let mut votes = Votes::default();
    for (_, cells) in preview(text, header.delimiter, sniff::ROWS).iter().filter(|(line, _)| *line > header.line) {
        for column in values {
            let is_possible = |value| column.channel.limit().possible.contains(&column.unit.to_si(value));
            if let Some(cell) = cells.get(column.index) {
                votes.add(cell, is_possible);
            }
        }
        let elapsed = time.filter(|(_, form)| *form != TimeForm::Clock).and_then(|(index, _)| cells.get(index));
        if let Some(cell) = elapsed {
            votes.add(cell, |_| true);
        }
    }
    votes.sign(header.delimiter)
}

fn no_header(text: &[u8], settings: &LogSettings) -> Finding {
    let delimiter = settings.style.delimiter.unwrap_or_else(|| sniff::delimiter(text));
    let rows = preview(text, delimiter, sniff::ROWS);
    let width = rows.iter().map(|(_, c)| c.len()).max().unwrap_or(0);
    match rows.iter().find(|(_, c)| c.len() == width) {
        Some((line, cells)) => Finding::from(Log::HeaderMissing(headers(cells))).at("", Some(*line), None),
        None => Log::Empty.into(),
    }
}

/// A column that is there but whose unit could not be read explains more than its absence.
fn incomplete(best: &Candidate) -> Finding {
    if let Some(unit) = best.columns.findings.iter().find(|f| f.severity == Severity::Error) {
        return unit.clone();
    }
    let headers = headers(&best.cells);
    let fact = if best.columns.time.is_none() { Log::TimeMissing(headers) } else { Log::TankMissing(headers) };
    Finding::from(fact).at("", Some(best.line), None)
}

/// The first headers of a row.
fn headers(cells: &[String]) -> Vec<String> {
    cells.iter().filter(|c| !c.is_empty()).take(20).map(|c| quoted(c).into_owned()).collect()
}
