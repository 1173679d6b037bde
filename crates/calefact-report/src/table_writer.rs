//! A form of a table on disk, written piece by piece: a table of thousands of trials is never whole in memory.

use crate::ReportError;
use crate::columns::Table;
use std::path::PathBuf;

/// An open file that takes pieces of one table.
pub(crate) trait TableWriter: Send {
    /// Adds the rows of a table of the same columns.
    fn append(&mut self, table: &Table<'_>) -> Result<(), ReportError>;

    /// Completes the file.
    fn finish(self: Box<Self>) -> Result<(), ReportError>;
}

/// An open file with its path.
pub(crate) struct OpenFile {
    /// Path of the file.
    pub(crate) path: PathBuf,
    /// Its writer.
    pub(crate) writer: Box<dyn TableWriter>,
}
