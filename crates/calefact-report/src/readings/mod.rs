//! The readings table: streamed while trials are read, so that memory does not grow with their number.
//!
//! Readings are copied into a batch; a full batch goes to one thread for each file. The
//! order of the rows is the order of the calls, whatever the threads do.

mod batch;
mod worker;

use crate::ReportError;
use crate::manifest::Hashed;
use crate::table_files::TableFolder;
use batch::BATCH_ROWS;
use calefact_data::{Readings, RegisterRow};
use std::path::Path;
use std::sync::Arc;
use worker::{Closing, Worker};

pub(crate) use batch::Batch;

/// Writes the `readings` table trial by trial.
pub struct ReadingsWriter {
    batch: Batch,
    workers: Vec<Worker>,
}

/// The files of a finished `readings` table, still being written and hashed while other work goes on;
/// [`Stage::finish`](crate::Stage::finish) waits for them.
pub struct ReadingsFiles {
    closing: Vec<Closing>,
}

impl ReadingsWriter {
    /// Opens the files in a folder of tables, shown relative to `base`.
    pub(crate) fn open(folder: &TableFolder, base: &Path) -> Result<Self, ReportError> {
        let batch = Batch::default();
        let wanted = folder.formats().readings;
        let files = if wanted { folder.create_readings(&batch.table())? } else { Vec::new() };
        let workers = files.into_iter().map(|file| Worker::start(file, base)).collect::<Result<_, _>>()?;
        Ok(Self { batch, workers })
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

    /// Hands over what is left and lets the files be closed.
    ///
    /// # Errors
    /// The error of an earlier batch, where it is known.
    pub fn finish(mut self) -> Result<ReadingsFiles, ReportError> {
        if self.batch.len() > 0 {
            self.flush()?;
        }
        Ok(self.close())
    }

    fn close(&mut self) -> ReadingsFiles {
        ReadingsFiles { closing: self.workers.drain(..).map(Worker::close).collect() }
    }

    fn flush(&mut self) -> Result<(), ReportError> {
        let batch = Arc::new(std::mem::take(&mut self.batch));
        let alive = self.workers.iter().all(|w| w.send(batch.clone()));
        if alive { Ok(()) } else { self.close().wait().and(Err(ReportError::WriterStopped)) }
    }
}

impl ReadingsFiles {
    /// Whether this is one of them.
    pub(crate) fn holds(&self, path: &Path) -> bool {
        self.closing.iter().any(|c| c.path() == path)
    }

    /// Waits until all are written.
    pub(crate) fn wait(self) -> Result<Vec<Hashed>, ReportError> {
        self.closing.into_iter().map(Closing::wait).collect()
    }
}
