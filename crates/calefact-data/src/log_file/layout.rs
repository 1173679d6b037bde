//! Where the header of a log stands and how its cells are delimited.

use super::columns::{self, Columns};
use crate::Finding;
use crate::dataset_file::LogSettings;
use crate::text::cells::{preview, quoted};
use crate::text::number::Decimal;
use crate::text::sniff;

/// Layout of a log.
#[derive(Debug, Clone)]
pub(super) struct Layout {
    pub(super) delimiter: u8,
    pub(super) decimal: Decimal,
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
    let Some(best) = best.filter(|b| b.columns.recognised > 0) else { return Err(no_header(text, settings).into()) };
    if !best.columns.is_complete() {
        return Err(incomplete(&best).into());
    }
    let decimal = settings.style.decimal.unwrap_or_else(|| decimal(text, &best));
    Ok(Layout { delimiter: best.delimiter, decimal, line: best.line, columns: best.columns })
}

/// A first row that is complete and holds nothing unknown needs no further look.
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
            let columns = columns::resolve(&cells, line, settings);
            let rank = |c: &Columns| (c.is_complete(), c.recognised);
            if best.as_ref().is_none_or(|b| rank(&columns) > rank(&b.columns)) {
                best = Some(Candidate { delimiter, line, cells, columns });
            }
        }
    }
    best
}

fn decimal(text: &[u8], header: &Candidate) -> Decimal {
    if header.delimiter == b',' && !text.contains(&b'"') {
        return Decimal::Point;
    }
    let rows = preview(text, header.delimiter, sniff::ROWS);
    let cells = rows.iter().filter(|(line, _)| *line > header.line).flat_map(|(_, c)| c).map(String::as_str);
    sniff::decimal(cells, header.delimiter)
}

fn no_header(text: &[u8], settings: &LogSettings) -> Finding {
    let delimiter = settings.style.delimiter.unwrap_or_else(|| sniff::delimiter(text));
    let rows = preview(text, delimiter, sniff::ROWS);
    let width = rows.iter().map(|(_, c)| c.len()).max().unwrap_or(0);
    let Some((line, cells)) = rows.iter().find(|(_, c)| c.len() == width) else {
        return Finding::error_text("log-empty", "the log holds no row").action("trial left out");
    };
    missing("time-missing", "no row of the log names a time column and `tank`", *line, cells)
}

fn incomplete(best: &Candidate) -> Finding {
    if best.columns.time.is_none() {
        let message = "the log has no time column: neither `elapsed` nor `clock`";
        return unit_first(best).unwrap_or_else(|| missing("time-missing", message, best.line, &best.cells));
    }
    unit_first(best).unwrap_or_else(|| missing("tank-missing", "the log has no column `tank`", best.line, &best.cells))
}

/// A column that is there but whose unit could not be read explains more than its absence.
fn unit_first(best: &Candidate) -> Option<Finding> {
    let errors = best.columns.findings.iter().filter(|f| f.severity == crate::Severity::Error);
    errors.into_iter().next().cloned().map(|f| f.action("trial left out"))
}

fn missing(code: &'static str, message: &str, line: u64, cells: &[String]) -> Finding {
    let found: Vec<String> =
        cells.iter().filter(|c| !c.is_empty()).take(20).map(|c| format!("`{}`", quoted(c))).collect();
    Finding::error_text(code, message)
        .at("", Some(line), None)
        .action("trial left out")
        .hint(format!("headers found: {}; map them under [columns] in dataset.toml", found.join(", ")))
}
