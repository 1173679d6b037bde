//! A table as CSV (RFC 4180, lines ended by LF). Cells go straight into a byte buffer; words that need quotes go through the
//! csv crate.

use crate::ReportError;
use crate::columns::{Table, Values};
use crate::number;
use crate::table_writer::TableWriter;
use crate::words;
use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Bytes collected before they go to the file.
const BUFFER: usize = 1 << 18;

/// An open CSV file.
pub(crate) struct CsvFile {
    file: File,
    path: PathBuf,
    buffer: Vec<u8>,
}

impl CsvFile {
    /// Creates the file and writes the header.
    pub(crate) fn create(path: &Path, table: &Table<'_>) -> Result<Self, ReportError> {
        let file = File::create(path).map_err(ReportError::io("create", path))?;
        let mut buffer = Vec::new();
        for column in &table.columns {
            push_text(&mut buffer, &column.name);
            buffer.push(b',');
        }
        end_line(&mut buffer);
        Ok(Self { file, path: path.to_path_buf(), buffer })
    }

    fn write_out(&mut self) -> Result<(), ReportError> {
        self.file.write_all(&self.buffer).map_err(ReportError::io("write", &self.path))?;
        self.buffer.clear();
        Ok(())
    }
}

impl TableWriter for CsvFile {
    fn append(&mut self, table: &Table<'_>) -> Result<(), ReportError> {
        for row in 0..table.rows() {
            for column in &table.columns {
                push_cell(&mut self.buffer, &column.values, row);
                self.buffer.push(b',');
            }
            end_line(&mut self.buffer);
            if self.buffer.len() >= BUFFER {
                self.write_out()?;
            }
        }
        Ok(())
    }

    fn finish(mut self: Box<Self>) -> Result<(), ReportError> {
        self.write_out()
    }
}

/// Turns the comma after the last cell into the end of the line.
fn end_line(buffer: &mut [u8]) {
    if let Some(comma) = buffer.last_mut() {
        *comma = b'\n';
    }
}

fn push_cell(buffer: &mut Vec<u8>, values: &Values<'_>, row: usize) {
    match values {
        Values::Text(v) => v[row].iter().for_each(|text| push_text(buffer, text)),
        Values::Number(v) => number::push(buffer, v[row]),
        Values::Count(v) => v[row].iter().for_each(|n| number::push(buffer, *n as f64)),
        Values::Flag(v) => buffer.extend_from_slice(if v[row] { b"true" } else { b"false" }),
        Values::Missing(_) | Values::MissingText(_) => {}
    }
}

/// A text cell, quoted where RFC 4180 asks for it. One that a spreadsheet would take for a formula begins with an apostrophe.
fn push_text(buffer: &mut Vec<u8>, text: &str) {
    let text = &*words::as_text(text);
    if !text.bytes().any(|b| matches!(b, b'"' | b',' | b'\n' | b'\r')) {
        buffer.extend_from_slice(text.as_bytes());
        return;
    }
    let mut writer = csv::WriterBuilder::new().from_writer(Vec::with_capacity(text.len() + 3));
    let written = writer.write_record([text]);
    debug_assert!(written.is_ok(), "writing to memory does not fail");
    let line = writer.into_inner().unwrap_or_default();
    buffer.extend_from_slice(line.strip_suffix(b"\n").unwrap_or(&line));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_cell_is_written_as_its_reader_expects() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("t.csv");
        let table = Table::new("t")
            .maybe("a", "", [Some("x, \"y\""), None].into_iter())
            .number("b", "", "", [0.1, f64::NAN].into_iter())
            .count("c", "", [None, Some(7)].into_iter())
            .flag("d", "", [true, false].into_iter())
            .missing("e", "", "", 2)
            .missing_text("f", "", 2);
        let mut file = Box::new(CsvFile::create(&path, &table).unwrap());
        file.append(&table).unwrap();
        file.finish().unwrap();
        let text = std::fs::read_to_string(&path).unwrap();
        assert_eq!(text, "a,b,c,d,e,f\n\"x, \"\"y\"\"\",0.1,,true,,\n,,7,false,,\n");
    }
}
