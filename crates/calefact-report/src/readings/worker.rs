//! A thread that writes batches in the order they were sent.

use super::batch::Batch;
use crate::ReportError;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::thread::JoinHandle;

/// Batches that may wait; bounds the memory.
const WAITING: usize = 2;

/// A writing thread and the way to it.
pub(super) struct Worker {
    sender: SyncSender<Arc<Batch>>,
    thread: JoinHandle<Result<(), ReportError>>,
}

impl Worker {
    /// Starts a thread that gets all batches and then closes its file.
    pub(super) fn start<F>(write: F) -> Self
    where
        F: FnOnce(Receiver<Arc<Batch>>) -> Result<(), ReportError> + Send + 'static,
    {
        let (sender, receiver) = sync_channel(WAITING);
        Self { sender, thread: std::thread::spawn(move || write(receiver)) }
    }

    /// Hands a batch over; `false` when the thread has stopped with an error.
    pub(super) fn send(&self, batch: Arc<Batch>) -> bool {
        self.sender.send(batch).is_ok()
    }

    /// Waits for the thread and gives its result.
    pub(super) fn finish(self) -> Result<(), ReportError> {
        drop(self.sender);
        self.thread.join().unwrap_or(Err(ReportError::WriterStopped))
    }
}
