//! Sheets of `.ods` workbooks (OpenDocument 1.3 part 3, chapters 9 and 19).
//!
//! calamine reads them, too, but holds all cells of all sheets, repeated ones included, and does not end on a file that is cut
//! short. This reader goes through the file once and keeps each sheet as text.

use super::address::{MOST_COLUMNS, MOST_ROWS, cell_name};
use super::content::{self, Content};
use super::sheet_text::SheetText;
use super::xml::{attribute, character, next, reader};
use crate::fact::WorkbookFailure;
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use std::io::BufRead;

/// Reads all sheets, in the order of the workbook, with their names.
pub(super) fn read(part: impl BufRead) -> Result<Vec<(String, SheetText)>, WorkbookFailure> {
    let mut sheets = Vec::new();
    let mut reader = reader(part);
    let mut buffer = Vec::new();
    let (mut depth, mut is_empty) = (0_u64, true);
    loop {
        match next(&mut reader, &mut buffer)? {
            Event::Start(start) if start.local_name().as_ref() == "table" => {
                let name = attribute(&start, "name")?.unwrap_or_default();
                sheets.push((name, sheet(&mut reader)?));
            }
            Event::Start(_) => (depth, is_empty) = (depth + 1, false),
            Event::End(_) => depth -= 1,
            Event::Eof if depth > 0 || is_empty => return Err(WorkbookFailure::Damaged),
            Event::Eof => return Ok(sheets),
            _ => {}
        }
    }
}

/// Reads the rows of a sheet, to its end.
fn sheet<R: BufRead>(reader: &mut Reader<R>) -> Result<SheetText, WorkbookFailure> {
    let (mut sheet, mut buffer) = (SheetText::default(), Vec::new());
    let mut row = 1;
    loop {
        match next(reader, &mut buffer)? {
            Event::Start(start) if start.local_name().as_ref() == "table-row" => {
                let times = repeats(&start, "number-rows-repeated")?;
                let is_hidden = attribute(&start, "visibility")?.is_some_and(|v| v != "visible");
                let cells = cells(reader, row)?;
                write(&mut sheet, &cells, row..row.saturating_add(times), is_hidden)?;
                row = row.saturating_add(times);
            }
            Event::Start(start) if start.local_name().as_ref() == "shapes" => skip(reader)?,
            Event::End(end) if end.local_name().as_ref() == "table" => return Ok(sheet),
            Event::Eof => return Err(WorkbookFailure::Damaged),
            _ => {}
        }
    }
}

/// A cell of a row, and how often it is repeated.
struct Cell {
    column: u64,
    times: u64,
    content: Content,
    /// Rows it spans if it spans one column.
    rows: u64,
}

/// Writes the cells of rows that are alike. Rows without cells, of which a sheet may have a million, take no time.
fn write(
    sheet: &mut SheetText,
    cells: &[Cell],
    rows: std::ops::Range<u64>,
    is_hidden: bool,
) -> Result<(), WorkbookFailure> {
    if cells.is_empty() {
        return Ok(());
    }
    for row in rows {
        if is_hidden {
            sheet.hide(row);
        }
        for cell in cells {
            if cell.rows > 1 {
                sheet.merge(row, cell.column, cell.rows);
            }
            for column in cell.column..cell.column + cell.times {
                sheet.cell(row, column, &cell.content)?;
            }
        }
    }
    Ok(())
}

/// Reads the cells of a row that hold something, to the end of the row.
fn cells<R: BufRead>(reader: &mut Reader<R>, row: u64) -> Result<Vec<Cell>, WorkbookFailure> {
    let (mut cells, mut buffer, mut column) = (Vec::new(), Vec::new(), 1);
    loop {
        match next(reader, &mut buffer)? {
            Event::Start(start) if matches!(start.local_name().as_ref(), "table-cell" | "covered-table-cell") => {
                let times = repeats(&start, "number-columns-repeated")?;
                let (value, rows) = (Value::read(&start)?, rows_spanned(&start)?);
                if let Some(content) = value.content(&text(reader)?, || cell_name(row, column))? {
                    // Repeated beyond the edge of the sheet, a cell would fill the memory.
                    if column.saturating_add(times) > MOST_COLUMNS + 1 || row > MOST_ROWS {
                        return Err(WorkbookFailure::Damaged);
                    }
                    cells.push(Cell { column, times, content, rows });
                }
                column = column.saturating_add(times);
            }
            Event::End(end) if end.local_name().as_ref() == "table-row" => return Ok(cells),
            Event::Eof => return Err(WorkbookFailure::Damaged),
            _ => {}
        }
    }
}

/// Rows that a cell of one column spans; one that spans columns is a title.
fn rows_spanned(start: &BytesStart<'_>) -> Result<u64, WorkbookFailure> {
    let is_title = repeats(start, "number-columns-spanned")? > 1;
    if is_title { Ok(1) } else { repeats(start, "number-rows-spanned") }
}

fn repeats(start: &BytesStart<'_>, name: &str) -> Result<u64, WorkbookFailure> {
    let Some(times) = attribute(start, name)? else { return Ok(1) };
    times.parse().ok().filter(|n| *n > 0).ok_or(WorkbookFailure::Damaged)
}

/// The value of a cell as its attributes give it.
struct Value {
    kind: Option<String>,
    written: Option<String>,
    is_error: bool,
    has_formula: bool,
}

impl Value {
    fn read(start: &BytesStart<'_>) -> Result<Self, WorkbookFailure> {
        let mut value = Self { kind: None, written: None, is_error: false, has_formula: false };
        for attribute in start.attributes().with_checks(false) {
            let attribute = attribute.map_err(|_| WorkbookFailure::Damaged)?;
            let text = || attribute.normalized_value(quick_xml::XmlVersion::Implicit1_0);
            match attribute.key.as_ref() {
                "calcext:value-type" => value.is_error = &*attribute.value == "error",
                "office:value-type" => value.kind = Some(attribute.value.clone().into_owned()),
                "office:value" | "office:date-value" | "office:time-value" | "office:boolean-value" => {
                    value.written = Some(text().map_err(|_| WorkbookFailure::Damaged)?.into_owned());
                }
                "table:formula" => value.has_formula = true,
                _ => {}
            }
        }
        Ok(value)
    }

    /// The content of the cell, which shows `text`; none of an empty one.
    fn content(self, text: &str, name: impl Fn() -> String) -> Result<Option<Content>, WorkbookFailure> {
        if self.is_error {
            return Ok(Some(Content::Error(text.trim().into())));
        }
        let Some(kind) = self.kind else {
            let is_empty = text.trim().is_empty();
            return match (self.has_formula, is_empty) {
                (true, true) => Err(WorkbookFailure::NotCalculated(name())),
                (_, empty) => Ok((!empty).then(|| Content::Text(text.trim().into()))),
            };
        };
        let value = self.written.as_deref();
        let number = || value.and_then(|v| v.trim().parse().ok()).filter(|v: &f64| v.is_finite());
        let content = match kind.as_str() {
            "float" | "currency" => number().map(Content::Number),
            "percentage" => number().map(Content::Percent),
            "date" => value.map(|v| Content::Time(content::iso_time(v))),
            "time" => value.and_then(content::iso_span).map(|seconds| Content::Time(time(seconds, text))),
            _ if text.trim().is_empty() => return Ok(None),
            _ => Some(Content::Text(text.trim().into())),
        };
        content.map(Some).ok_or(WorkbookFailure::Damaged)
    }
}

/// A time as hours and minutes where the cell shows no seconds.
fn time(seconds: f64, shown: &str) -> String {
    let short = content::hours(seconds, false);
    let is_short = short.trim_start_matches('0') == shown.trim().trim_start_matches('0');
    if is_short { short } else { content::hours(seconds, true) }
}

/// The text of a cell, to its end; paragraphs are parted by a space. Notes and pictures at the cell are passed over.
fn text<R: BufRead>(reader: &mut Reader<R>) -> Result<String, WorkbookFailure> {
    let (mut text, mut buffer, mut depth) = (String::new(), Vec::new(), 1_u64);
    while depth > 0 {
        match next(reader, &mut buffer)? {
            Event::Start(start) => match start.local_name().as_ref() {
                "annotation" | "frame" | "table" | "custom-shape" => skip(reader)?,
                name => {
                    if matches!(name, "p" | "s" | "tab" | "line-break") && !text.is_empty() {
                        text.push(' ');
                    }
                    depth += 1;
                }
            },
            Event::End(_) => depth -= 1,
            Event::Text(words) => text.push_str(&words.xml10_content()),
            Event::GeneralRef(reference) => text.push_str(&character(&reference)?),
            Event::Eof => return Err(WorkbookFailure::Damaged),
            _ => {}
        }
    }
    Ok(text)
}

/// Reads to the end of the element that has just begun.
fn skip<R: BufRead>(reader: &mut Reader<R>) -> Result<(), WorkbookFailure> {
    let (mut buffer, mut depth) = (Vec::new(), 1_u64);
    while depth > 0 {
        match next(reader, &mut buffer)? {
            Event::Start(_) => depth += 1,
            Event::End(_) => depth -= 1,
            Event::Eof => return Err(WorkbookFailure::Damaged),
            _ => {}
        }
    }
    Ok(())
}
