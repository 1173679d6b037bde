//! A first look at a sheet of an `.xlsx` workbook: whether it is well formed, so that calamine neither waits nor miscounts, and
//! what calamine does not tell of it: hidden rows, merged cells, formulas without a value. No value is taken here.

use super::address::{MOST_ROWS, cell_at};
use super::sheet_text::SheetText;
use super::xml::{attribute, next, reader};
use crate::fact::WorkbookFailure;
use quick_xml::events::{BytesStart, Event};
use std::io::BufRead;

/// A cell being looked at.
#[derive(Default)]
struct Cell {
    name: String,
    /// Whether it holds text, which may be empty.
    is_text: bool,
    /// Whether it has a formula, and no value so far; the value comes after the formula.
    lacks_value: bool,
    /// Whether its value is being read.
    in_value: bool,
}

/// Looks at a sheet, and notes in `sheet` what a person should know.
pub(super) fn survey(part: impl BufRead, sheet: &mut SheetText) -> Result<(), WorkbookFailure> {
    let (mut reader, mut buffer, mut depth) = (reader(part), Vec::new(), 0_u64);
    let mut cell = Cell::default();
    loop {
        match next(&mut reader, &mut buffer)? {
            Event::Start(start) => {
                depth += 1;
                enter(&start, &mut cell, sheet)?;
            }
            Event::Text(_) => cell.lacks_value &= !cell.in_value,
            Event::End(end) => {
                depth -= 1;
                cell.leave(end.local_name().as_ref())?;
            }
            Event::Eof if depth > 0 => return Err(WorkbookFailure::Damaged),
            Event::Eof => return Ok(()),
            _ => {}
        }
    }
}

fn enter(start: &BytesStart<'_>, cell: &mut Cell, sheet: &mut SheetText) -> Result<(), WorkbookFailure> {
    match start.local_name().as_ref() {
        "dimension" => range(start).map(|_| ()),
        "row" => row(start, sheet),
        "mergeCell" => merged(start, sheet),
        "c" => begin(start).map(|begun| *cell = begun),
        "f" => {
            cell.lacks_value = true;
            Ok(())
        }
        "v" | "is" => {
            (cell.in_value, cell.lacks_value) = (true, cell.lacks_value && !cell.is_text);
            Ok(())
        }
        _ => Ok(()),
    }
}

impl Cell {
    /// At the end of an element: a formula has to have its value.
    fn leave(&mut self, element: &str) -> Result<(), WorkbookFailure> {
        self.in_value &= !matches!(element, "v" | "is");
        if element == "c" && self.lacks_value {
            Err(WorkbookFailure::NotCalculated(std::mem::take(&mut self.name)))
        } else {
            Ok(())
        }
    }
}

fn begin(start: &BytesStart<'_>) -> Result<Cell, WorkbookFailure> {
    let name = attribute(start, "r")?;
    if name.as_deref().is_some_and(|name| cell_at(name).is_none()) {
        return Err(WorkbookFailure::Damaged);
    }
    let is_text = attribute(start, "t")?.is_some_and(|kind| kind == "str");
    Ok(Cell { name: name.unwrap_or_default(), is_text, ..Cell::default() })
}

fn row(start: &BytesStart<'_>, sheet: &mut SheetText) -> Result<(), WorkbookFailure> {
    let Some(number) = attribute(start, "r")? else { return Ok(()) };
    let number = number.parse().ok().filter(|row| (1..=MOST_ROWS).contains(row)).ok_or(WorkbookFailure::Damaged)?;
    if attribute(start, "hidden")?.is_some_and(|hidden| matches!(hidden.as_str(), "1" | "true")) {
        sheet.hide(number);
    }
    Ok(())
}

/// Notes a cell merged over rows of one column. A title merged over columns, too, stands above the table.
fn merged(start: &BytesStart<'_>, sheet: &mut SheetText) -> Result<(), WorkbookFailure> {
    let ((top, left), (bottom, right)) = range(start)?;
    if left == right && bottom > top {
        sheet.merge(top, left, bottom - top + 1);
    }
    Ok(())
}

type Corner = (u64, u64);

/// The corners of a range, `A1:C9` or `A1`, the first above and left of the second.
fn range(start: &BytesStart<'_>) -> Result<(Corner, Corner), WorkbookFailure> {
    let text = attribute(start, "ref")?.ok_or(WorkbookFailure::Damaged)?;
    let (first, last) = text.split_once(':').unwrap_or((&text, &text));
    let corners = cell_at(first).zip(cell_at(last));
    corners.filter(|(a, b)| a.0 <= b.0 && a.1 <= b.1).ok_or(WorkbookFailure::Damaged)
}
