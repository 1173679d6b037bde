//! A thread that writes batches in the order they were sent, then closes and hashes its file.

use super::batch::Batch;
use crate::ReportError;
use crate::manifest::{self, Hashed};
use crate::table_writer::OpenFile;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread::JoinHandle;

/// Batches that may wait; bounds the memory.
const WAITING: usize = 2;

/// A writing thread and the way to it.
pub(super) struct Worker {
    sender: SyncSender<Arc<Batch>>,
    closing: Closing,
}

/// A thread that has got its last batch.
pub(super) struct Closing {
    path: PathBuf,
    thread: JoinHandle<Result<Hashed, ReportError>>,
}

impl Worker {
    /// Starts a thread that gets all batches and writes them to a file, shown relative to `base`.
    ///
    /// # Errors
    /// If the system gives no thread.
    pub(super) fn start(file: OpenFile, base: &Path) -> Result<Self, ReportError> {
        let OpenFile { path, mut writer } = file;
        let (sender, receiver) = sync_channel::<Arc<Batch>>(WAITING);
        let (written, base) = (path.clone(), base.to_path_buf());
        let work = move || {
            receiver.into_iter().try_for_each(|batch| writer.append(&batch.table()))?;
            writer.finish()?;
            manifest::hash(&written, &base)
        };
        let thread = std::thread::Builder::new().spawn(work).map_err(ReportError::io("start a thread for", &path))?;
        Ok(Self { sender, closing: Closing { path, thread } })
    }

    /// Hands a batch over; `false` when the thread has stopped with an error.
    pub(super) fn send(&self, batch: Arc<Batch>) -> bool {
        self.sender.send(batch).is_ok()
    }

    /// No further batch comes.
    pub(super) fn close(self) -> Closing {
        self.closing
    }
}

impl Closing {
    /// The file it writes.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// Waits for the thread and gives its result.
    pub(super) fn wait(self) -> Result<Hashed, ReportError> {
        self.thread.join().unwrap_or(Err(ReportError::WriterStopped))
    }
}
