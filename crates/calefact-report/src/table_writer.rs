//! The forms of a table on disk. A table is written piece by piece: one of thousands of trials is never whole in memory.

use crate::columns::Table;
use crate::csv_file::CsvFile;
#[cfg(feature = "parquet")]
use crate::parquet_file::ParquetFile;
use crate::{Formats, ReportError};
use std::path::{Path, PathBuf};

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

/// Creates the files of the formats asked in a folder, with the name and columns of `table`; its rows are not written.
pub(crate) fn create(dir: &Path, table: &Table<'_>, formats: Formats) -> Result<Vec<OpenFile>, ReportError> {
    let mut files = Vec::new();
    if formats.csv {
        let path = dir.join(table.name).with_extension("csv");
        files.push(OpenFile { writer: Box::new(CsvFile::create(&path, table)?), path });
    }
    #[cfg(feature = "parquet")]
    if formats.parquet {
        let path = dir.join(table.name).with_extension("parquet");
        files.push(OpenFile { writer: Box::new(ParquetFile::create(&path, table)?), path });
    }
    if formats.parquet && !Formats::HAS_PARQUET {
        return Err(ReportError::NoParquet);
    }
    Ok(files)
}

/// Writes a whole table.
pub(crate) fn write(dir: &Path, table: &Table<'_>, formats: Formats) -> Result<(), ReportError> {
    for mut file in create(dir, table, formats)? {
        file.writer.append(table)?;
        file.writer.finish()?;
    }
    Ok(())
}
