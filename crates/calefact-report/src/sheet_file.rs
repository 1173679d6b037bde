//! Tables as the sheets of one workbook: real numbers, the header always in sight, bytes that depend on nothing but the tables.

use crate::ReportError;
use crate::columns::{Table, Values};
use crate::table_writer::TableWriter;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, Worksheet, XlsxError};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// Characters that a cell holds at most (the limit of the format).
const LONGEST: usize = 32_767;
/// Widest a column is made, characters.
const WIDEST: usize = 40;

/// The finished sheets of a workbook, from any thread.
#[derive(Clone, Default)]
pub(crate) struct Sheets(Arc<Mutex<Vec<(&'static str, Worksheet)>>>);

impl std::fmt::Debug for Sheets {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Sheets")
    }
}

impl Sheets {
    /// Saves the sheets as a workbook, those of `order` first and in that order.
    pub(crate) fn save(&self, path: &Path, order: &[&str]) -> Result<(), ReportError> {
        let mut sheets = std::mem::take(&mut *self.0.lock().unwrap_or_else(PoisonError::into_inner));
        let place = |name: &str| order.iter().position(|n| *n == name).unwrap_or(order.len());
        sheets.sort_by_key(|(name, _)| (place(name), *name));
        let mut workbook = Workbook::new();
        // The same tables give the same bytes on any day.
        let day = ExcelDateTime::from_ymd(2000, 1, 1).map_err(ReportError::workbook(path))?;
        workbook.set_properties(&DocProperties::new().set_creation_datetime(&day));
        for (_, sheet) in sheets {
            workbook.push_worksheet(sheet);
        }
        workbook.save(path).map_err(ReportError::workbook(path))
    }
}

/// A sheet that takes the rows of a table.
pub(crate) struct SheetFile {
    name: &'static str,
    sheet: Worksheet,
    rows: u32,
    done: Sheets,
    path: PathBuf,
}

impl SheetFile {
    /// A sheet with the header of `table`, which joins `done` at its end; `path` is the workbook.
    pub(crate) fn create(path: &Path, table: &Table<'_>, done: Sheets) -> Result<Self, ReportError> {
        let mut sheet = Worksheet::new();
        header(&mut sheet, table).map_err(ReportError::workbook(path))?;
        Ok(Self { name: table.name, sheet, rows: 1, done, path: path.to_path_buf() })
    }
}

fn header(sheet: &mut Worksheet, table: &Table<'_>) -> Result<(), XlsxError> {
    let bold = Format::new().set_bold();
    sheet.set_name(table.name)?.set_freeze_panes(1, 0)?;
    for (index, column) in (0..).zip(&table.columns) {
        sheet.write_string_with_format(0, index, &column.name, &bold)?;
        let is_text = matches!(column.values, Values::Text(_) | Values::MissingText(_));
        let width = column.name.chars().count().max(if is_text { 16 } else { 10 }).min(WIDEST);
        sheet.set_column_width(index, width as f64 + 2.0)?;
    }
    Ok(())
}

impl TableWriter for SheetFile {
    fn append(&mut self, table: &Table<'_>) -> Result<(), ReportError> {
        for row in 0..table.rows() {
            for (index, column) in (0..).zip(&table.columns) {
                write(&mut self.sheet, (self.rows, index), &column.values, row)
                    .map_err(ReportError::workbook(&self.path))?;
            }
            self.rows += 1;
        }
        Ok(())
    }

    fn finish(self: Box<Self>) -> Result<(), ReportError> {
        self.done.0.lock().unwrap_or_else(PoisonError::into_inner).push((self.name, self.sheet));
        Ok(())
    }
}

/// Writes a cell; what is missing leaves it empty. Words are words, those that begin with `=` among them.
fn write(sheet: &mut Worksheet, (at, column): (u32, u16), values: &Values<'_>, row: usize) -> Result<(), XlsxError> {
    match values {
        Values::Text(v) => {
            if let Some(text) = &v[row] {
                let text: String = text.chars().take(LONGEST).collect();
                sheet.write_string(at, column, text)?;
            }
        }
        Values::Number(v) if v[row].is_finite() => {
            sheet.write_number(at, column, v[row])?;
        }
        Values::Count(v) => {
            if let Some(count) = v[row] {
                sheet.write_number(at, column, count as f64)?;
            }
        }
        Values::Flag(v) => {
            sheet.write_boolean(at, column, v[row])?;
        }
        Values::Number(_) | Values::Missing(_) | Values::MissingText(_) => {}
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::sheets;

    fn table() -> Table<'static> {
        Table::new("t")
            .maybe("a", "", [Some("=1+1"), None].into_iter())
            .number("b", "", "", [0.1, f64::NAN].into_iter())
            .count("c", "", [None, Some(7)].into_iter())
            .flag("d", "", [true, false].into_iter())
            .missing("e", "", "", 2)
    }

    fn save(path: &Path) -> Vec<u8> {
        let done = Sheets::default();
        for name in ["z", "t"] {
            let table = Table { name, ..table() };
            let mut file = Box::new(SheetFile::create(path, &table, done.clone()).unwrap());
            file.append(&table).unwrap();
            file.finish().unwrap();
        }
        done.save(path, &["t"]).unwrap();
        std::fs::read(path).unwrap()
    }

    #[test]
    fn every_kind_of_cell_is_written_as_its_reader_expects() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("t.xlsx");
        let bytes = save(&path);
        let read = sheets(&path).unwrap();
        assert_eq!(read.iter().map(|s| s.name.as_str()).collect::<Vec<_>>(), ["t", "z"]);
        assert_eq!(read[0].text.as_deref(), Ok("a\tb\tc\td\te\n=1+1\t0.1\t\ttrue\n\t\t7\tfalse"));
        assert_eq!(save(&dir.path().join("again.xlsx")), bytes, "the same bytes");
    }
}
