//! The files of a table: one for each form asked.

use crate::columns::Table;
use crate::csv_file::CsvFile;
#[cfg(feature = "parquet")]
use crate::parquet_file::ParquetFile;
use crate::table_writer::OpenFile;
use crate::{Formats, ReportError};
use std::path::Path;

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
