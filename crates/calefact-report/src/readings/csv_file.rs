//! The readings table as CSV. Words go through the csv crate once a trial; numbers straight into the byte buffer.

use super::batch::Batch;
use super::schema;
use super::worker::BatchFile;
use crate::{ReportError, number};
use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Bytes collected before they go to the file.
const BUFFER: usize = 1 << 18;

/// An open `readings.csv`.
pub(super) struct CsvFile {
    file: File,
    path: PathBuf,
    buffer: Vec<u8>,
}

impl CsvFile {
    /// Creates the file and writes the header.
    pub(super) fn create(path: &Path) -> Result<Self, ReportError> {
        let file = File::create(path).map_err(ReportError::io("create", path))?;
        let mut buffer = Vec::with_capacity(BUFFER + 4096);
        let header: Vec<&str> = schema::columns().map(|(name, ..)| name).collect();
        buffer.extend_from_slice(header.join(",").as_bytes());
        buffer.push(b'\n');
        Ok(Self { file, path: path.to_path_buf(), buffer })
    }

    /// Trial, time and channels of a row, each followed by a comma.
    fn numbers(&mut self, trial: &[u8], batch: &Batch, row: usize) {
        self.buffer.extend_from_slice(trial);
        self.buffer.push(b',');
        number::push(&mut self.buffer, batch.elapsed[row]);
        self.buffer.push(b',');
        for column in &batch.channels {
            if let Some(value) = column.get(row) {
                number::push(&mut self.buffer, *value);
            }
            self.buffer.push(b',');
        }
    }

    fn drain(&mut self) -> Result<(), ReportError> {
        self.file.write_all(&self.buffer).map_err(ReportError::io("write", &self.path))?;
        self.buffer.clear();
        Ok(())
    }
}

impl BatchFile for CsvFile {
    fn write(&mut self, batch: &Batch) -> Result<(), ReportError> {
        let mut row = 0;
        let mut events = batch.events.iter().peekable();
        let mut notes = batch.notes.iter().peekable();
        for (trial, rows) in &batch.trials {
            let trial = field(trial);
            for _ in 0..*rows {
                self.numbers(&trial, batch, row);
                for remarks in [&mut events, &mut notes] {
                    if let Some((_, text)) = remarks.next_if(|(at, _)| *at == row) {
                        self.buffer.extend_from_slice(&field(text));
                    }
                    self.buffer.push(b',');
                }
                number::push(&mut self.buffer, f64::from(batch.flags[row]));
                self.buffer.push(b'\n');
                row += 1;
                if self.buffer.len() >= BUFFER {
                    self.drain()?;
                }
            }
        }
        Ok(())
    }

    fn finish(mut self) -> Result<(), ReportError> {
        self.drain()
    }
}

/// A text field, quoted where RFC 4180 asks for it.
fn field(text: &str) -> Vec<u8> {
    let mut writer = csv::WriterBuilder::new().from_writer(Vec::with_capacity(text.len() + 2));
    let written = writer.write_record([text]).and_then(|()| writer.flush().map_err(Into::into));
    let mut bytes = writer.into_inner().unwrap_or_default();
    bytes.pop();
    debug_assert!(written.is_ok(), "writing to memory does not fail");
    bytes
}
