//! Sheets of `.xlsx` and `.xlsm` workbooks, through calamine. Macros are not run; formulas have the value that was saved.

use super::archive::{Archive, Shared};
use super::content::{self, Content, Shown};
use super::sheet_text::SheetText;
use super::xlsx_survey;
use crate::fact::WorkbookFailure;
use calamine::{DataRef, Reader as _, Style, Xlsx};
use std::io::Cursor;
use std::sync::Arc;

/// Reads a sheet, whose cells are in `part` of a checked archive.
pub(super) fn read(bytes: &Arc<[u8]>, name: &str, part: &str) -> Result<SheetText, WorkbookFailure> {
    let mut sheet = SheetText::default();
    xlsx_survey::survey(Archive::open(bytes.clone())?.part(part)?, &mut sheet)?;
    let mut workbook: Xlsx<Shared> = Xlsx::new(Cursor::new(bytes.clone())).map_err(|_| WorkbookFailure::Damaged)?;
    let mut cells = workbook.worksheet_cells_reader(name).map_err(|_| WorkbookFailure::Damaged)?;
    let shown: Vec<Shown> = cells.styles().iter().map(shown).collect();
    while let Some((cell, style)) = cells.next_cell_with_style_id().map_err(|_| WorkbookFailure::Damaged)? {
        let (row, column) = cell.get_position();
        if let Some(content) = content(cell.get_value(), shown.get(style).copied().unwrap_or_default()) {
            sheet.cell(u64::from(row) + 1, u64::from(column) + 1, &content)?;
        }
    }
    Ok(sheet)
}

fn shown(style: &Style) -> Shown {
    style.number_format.as_ref().map(|format| Shown::by_code(&format.format_code)).unwrap_or_default()
}

/// The content of a cell; none of an empty one.
fn content(value: &DataRef<'_>, shown: Shown) -> Option<Content> {
    Some(match value {
        DataRef::Empty => return None,
        DataRef::Int(value) => Content::Number(*value as f64),
        DataRef::Float(value) if shown.percent => Content::Percent(*value),
        DataRef::Float(value) => Content::Number(*value),
        DataRef::String(text) => Content::Text(text.clone()),
        DataRef::SharedString(text) => Content::Text((*text).to_owned()),
        DataRef::Bool(value) => Content::Text(value.to_string()),
        DataRef::DateTime(value) => Content::Time(content::excel_time(*value, shown)),
        DataRef::DateTimeIso(text) => Content::Time(content::iso_time(text)),
        DataRef::DurationIso(text) => match content::iso_span(text) {
            Some(seconds) => Content::Time(content::hours(seconds, true)),
            None => Content::Text(text.clone()),
        },
        DataRef::Error(error) => Content::Error(error.to_string()),
    })
}
