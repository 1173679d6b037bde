//! Rows and cells of a delimited text.
//!
//! Text without quotes is split where it lies; text with quotes goes through the csv crate (RFC 4180, tolerant of rows
//! of unequal length). Blank lines are skipped; lines are counted from 1 as an editor does.

use crate::Finding;
use crate::fact::File;
use memchr::{memchr, memchr_iter};
use std::borrow::Cow;
use std::ops::ControlFlow;

/// Calls `each` with line number and cells of every row until it breaks.
pub(crate) fn for_each_row(text: &[u8], delimiter: u8, each: impl FnMut(u64, &[&[u8]]) -> ControlFlow<()>) {
    if memchr(b'"', text).is_none() {
        split_plain(text, delimiter, each);
    } else {
        split_quoted(text, delimiter, each);
    }
}

fn split_plain<'t>(text: &'t [u8], delimiter: u8, mut each: impl FnMut(u64, &[&[u8]]) -> ControlFlow<()>) {
    let mut cells: Vec<&'t [u8]> = Vec::with_capacity(16);
    let mut line = 0;
    let mut rest = text;
    while !rest.is_empty() {
        let end = memchr(b'\n', rest).unwrap_or(rest.len());
        let row = rest[..end].strip_suffix(b"\r").unwrap_or(&rest[..end]);
        rest = &rest[(end + 1).min(rest.len())..];
        line += 1;
        if row.iter().all(u8::is_ascii_whitespace) {
            continue;
        }
        cells.clear();
        let mut start = 0;
        for at in memchr_iter(delimiter, row) {
            cells.push(&row[start..at]);
            start = at + 1;
        }
        cells.push(&row[start..]);
        if each(line, &cells).is_break() {
            return;
        }
    }
}

fn split_quoted(text: &[u8], delimiter: u8, mut each: impl FnMut(u64, &[&[u8]]) -> ControlFlow<()>) {
    let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).has_headers(false).flexible(true).from_reader(text);
    let mut record = csv::ByteRecord::new();
    // Reading from memory with `flexible` leaves the reader nothing to fail at.
    while reader.read_byte_record(&mut record).unwrap_or(false) {
        let cells: Vec<&[u8]> = record.iter().collect();
        let blank = cells.len() == 1 && cells[0].iter().all(u8::is_ascii_whitespace);
        let line = record.position().map_or(0, |p| first_line(text, p));
        if !blank && each(line, &cells).is_break() {
            return;
        }
    }
}

/// A cell that goes on beyond its line, which only a quote lets it do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct LongCell {
    /// Index in its row.
    pub(crate) index: usize,
    /// Line of the opening quote.
    pub(crate) line: u64,
    /// Whether the row ends with it.
    pub(crate) is_last: bool,
}

/// The cells of a row, begun on a line, that go on beyond theirs.
pub(crate) fn long_cells(line: u64, cells: &[&[u8]]) -> Vec<LongCell> {
    let mut opened_on = line;
    let mut found = Vec::new();
    for (index, cell) in cells.iter().enumerate() {
        let breaks = memchr_iter(b'\n', cell).count() as u64;
        if breaks > 0 {
            found.push(LongCell { index, line: opened_on, is_last: index + 1 == cells.len() });
        }
        opened_on += breaks;
    }
    found
}

/// Whether a long cell at the very end of a text has its closing quote.
pub(crate) fn ends_closed(text: &[u8]) -> bool {
    text.trim_ascii_end().ends_with(b"\"")
}

/// The rows that a long cell seems to have swallowed: its lines split into cells. Blanks stand for the cells of its first
/// line that lie before it.
pub(crate) fn rows_inside(cell: &str, index: usize, delimiter: u8) -> impl Iterator<Item = Vec<&str>> {
    cell.split('\n').enumerate().map(move |(n, line)| {
        let before = if n == 0 { index } else { 0 };
        std::iter::repeat_n("", before).chain(line.split(char::from(delimiter)).map(str::trim)).collect()
    })
}

/// A whole number in one cell and up to three digits in the next, which are one number where a decimal comma was taken for
/// the delimiter; as it was written then.
pub(crate) fn split_by_comma(number: &[u8], next: &[u8]) -> Option<String> {
    let [number, next] = [number.trim_ascii(), next.trim_ascii()];
    let whole = number.strip_prefix(b"-").unwrap_or(number);
    let digits = |part: &[u8]| !part.is_empty() && part.iter().all(u8::is_ascii_digit);
    let fits = digits(whole) && digits(next) && next.len() <= 3;
    fits.then(|| format!("{},{}", String::from_utf8_lossy(number), String::from_utf8_lossy(next)))
}

/// The finding on a quote that opens a long cell.
pub(crate) fn open_quote(cell: LongCell, never_closed: bool) -> Finding {
    Finding::error(File::QuoteOpen { never_closed }).at("", Some(cell.line), Some(cell.index as u64 + 1))
}

/// The csv crate reports a record at the end of the one before; blank lines between them belong to neither.
fn first_line(text: &[u8], position: &csv::Position) -> u64 {
    let from = usize::try_from(position.byte()).map_or(text.len(), |b| b.min(text.len()));
    let skipped = text[from..].iter().take_while(|b| matches!(b, b'\n' | b'\r')).filter(|b| **b == b'\n').count();
    position.line() + skipped as u64
}

/// The first rows as owned text, for a look at the layout.
pub(crate) fn preview(text: &[u8], delimiter: u8, rows: usize) -> Vec<(u64, Vec<String>)> {
    let mut out = Vec::new();
    for_each_row(text, delimiter, |line, cells| {
        out.push((line, cells.iter().map(|c| as_text(c)).collect()));
        if out.len() >= rows { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    out
}

/// A cell as trimmed text.
pub(crate) fn as_text(cell: &[u8]) -> String {
    String::from_utf8_lossy(cell).trim().to_string()
}

/// Most characters of a cell that a finding quotes.
const QUOTED: usize = 40;

/// A cell's text as a finding quotes it: cut where it is long.
pub(crate) fn quoted(text: &str) -> Cow<'_, str> {
    match text.char_indices().nth(QUOTED) {
        Some((end, _)) => format!("{}\u{2026}", &text[..end]).into(),
        None => text.into(),
    }
}

/// A cell's text as a finding keeps it: trimmed, and cut where it is long.
pub(crate) fn excerpt(cell: &[u8]) -> String {
    quoted(String::from_utf8_lossy(cell).trim()).into_owned()
}

#[cfg(test)]
mod tests {
    use super::{LongCell, long_cells, preview};

    fn rows(text: &str) -> Vec<(u64, Vec<String>)> {
        preview(text.as_bytes(), b',', 9)
    }

    #[test]
    fn plain_and_quoted_agree_on_cells_and_lines() {
        let plain = rows("a,b\r\n\r\n1,2\n,\n3,");
        assert_eq!(plain[0], (1, vec!["a".into(), "b".into()]));
        assert_eq!(plain[1], (3, vec!["1".into(), "2".into()]));
        assert_eq!(plain[3], (5, vec!["3".into(), String::new()]));
        assert_eq!(rows("\"a\",b\r\n\r\n1,\"2\"\n,\n3,"), plain);
    }

    #[test]
    fn quoted_cell_may_hold_a_line_break() {
        let got = rows("a,\"x\ny, z\"\n1,2\n");
        assert_eq!(got[0].1[1], "x\ny, z");
        assert_eq!(got[1], (3, vec!["1".into(), "2".into()]));
    }

    #[test]
    fn a_quote_is_opened_on_the_line_its_cell_begins() {
        let cells: [&[u8]; 4] = [b"1", b"x\ny\nz", b"2", b"3\n4"];
        let cell = |index, line, is_last| LongCell { index, line, is_last };
        assert_eq!(long_cells(7, &cells), [cell(1, 7, false), cell(3, 9, true)]);
        assert_eq!(long_cells(7, &cells[..1]), []);
    }
}
