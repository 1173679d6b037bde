//! A folder for what nobody keeps, in the system's folder for such things. It goes with its value, and with the program where a
//! signal ends that.

use calefact_report::{ReportError, Staging};
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Folders made so far.
static MADE: AtomicUsize = AtomicUsize::new(0);

/// A folder for what nobody keeps.
#[derive(Debug)]
pub(crate) struct Scratch(Staging);

impl Scratch {
    /// Makes one.
    ///
    /// # Errors
    /// If it cannot be created.
    pub(crate) fn new() -> Result<Self, ReportError> {
        let number = MADE.fetch_add(1, Ordering::Relaxed);
        let name = format!("calefact-{}-{number}", std::process::id());
        Staging::begin(&std::env::temp_dir().join(name)).map(Self)
    }

    /// The folder.
    pub(crate) fn path(&self) -> PathBuf {
        self.0.dir()
    }
}
