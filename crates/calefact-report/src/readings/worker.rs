//! A thread that writes batches in the order they were sent, then closes and hashes its file.

use super::batch::Batch;
use crate::ReportError;
use crate::manifest::{self, Hashed};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread::JoinHandle;

/// A file that takes batches.
pub(super) trait BatchFile: Send + 'static {
    /// Adds the rows of a batch.
    fn write(&mut self, batch: &Batch) -> Result<(), ReportError>;

    /// Completes the file.
    fn finish(self) -> Result<(), ReportError>;
}

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
    /// Starts a thread that gets all batches and writes them to the file at `path`, shown relative to `base`.
    pub(super) fn start(mut file: impl BatchFile, path: PathBuf, base: &Path) -> Self {
        let (sender, receiver) = sync_channel::<Arc<Batch>>(WAITING);
        let (written, base) = (path.clone(), base.to_path_buf());
        let thread = std::thread::spawn(move || {
            receiver.into_iter().try_for_each(|batch| file.write(&batch))?;
            file.finish()?;
            manifest::hash(&written, &base)
        });
        Self { sender, closing: Closing { path, thread } }
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
