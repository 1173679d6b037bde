//! The readings table: streamed while trials are read, so that memory does not grow with their number.
//!
//! Readings are copied into a batch; a full batch goes to one thread that formats CSV and one that encodes Parquet. The
//! order of the rows is the order of the calls, whatever the threads do.

mod batch;
mod csv_file;
mod parquet_file;
pub(crate) mod schema;
mod worker;

use crate::ReportError;
use crate::stage::Formats;
use batch::Batch;
use calefact_data::{Readings, RegisterRow};
use std::path::Path;
use std::sync::Arc;
use worker::Worker;

/// Rows of a batch, and so of a Parquet row group.
const BATCH_ROWS: usize = 1 << 16;

/// Writes the `readings` table trial by trial.
pub struct ReadingsWriter {
    batch: Batch,
    workers: Vec<Worker>,
}

impl ReadingsWriter {
    /// Opens the files of the formats asked in a folder.
    pub(crate) fn open(dir: &Path, formats: Formats) -> Result<Self, ReportError> {
        let mut workers = Vec::new();
        if formats.readings && formats.csv {
            let mut file = csv_file::CsvFile::create(&dir.join("readings.csv"))?;
            workers.push(Worker::start(move |batches| {
                batches.into_iter().try_for_each(|b| file.write(&b))?;
                file.finish()
            }));
        }
        if formats.readings && formats.parquet {
            let mut file = parquet_file::ParquetFile::create(&dir.join("readings.parquet"))?;
            workers.push(Worker::start(move |batches| {
                batches.into_iter().try_for_each(|b| file.write(&b))?;
                file.finish()
            }));
        }
        Ok(Self { batch: Batch::default(), workers })
    }

    /// Adds the readings of one trial.
    ///
    /// # Errors
    /// The error of an earlier batch, once it is known.
    pub fn push(&mut self, row: &RegisterRow, readings: &Readings) -> Result<(), ReportError> {
        if self.workers.is_empty() {
            return Ok(());
        }
        let mut start = 0;
        while start < readings.len() {
            let end = readings.len().min(start + BATCH_ROWS - self.batch.len());
            self.batch.add(&row.trial, readings, start..end);
            start = end;
            if self.batch.len() >= BATCH_ROWS {
                self.flush()?;
            }
        }
        Ok(())
    }

    /// Writes what is left and closes the files.
    ///
    /// # Errors
    /// The first error of either file.
    pub fn finish(mut self) -> Result<(), ReportError> {
        if self.batch.len() > 0 {
            self.flush()?;
        }
        self.workers.drain(..).try_for_each(Worker::finish)
    }

    fn flush(&mut self) -> Result<(), ReportError> {
        let batch = Arc::new(std::mem::take(&mut self.batch));
        let alive = self.workers.iter().all(|w| w.send(batch.clone()));
        if alive {
            Ok(())
        } else {
            self.workers.drain(..).try_for_each(Worker::finish).and(Err(ReportError::WriterStopped))
        }
    }
}
