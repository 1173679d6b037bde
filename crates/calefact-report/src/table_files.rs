//! The folder of the tables: one file a table for each form asked, and one workbook for all.

use crate::columns::Table;
use crate::csv_file::CsvFile;
#[cfg(feature = "parquet")]
use crate::parquet_file::ParquetFile;
use crate::sheet_file::{SheetFile, Sheets};
use crate::table_writer::OpenFile;
use crate::{Formats, ReportError};
use std::path::{Path, PathBuf};

/// File of the workbook.
const WORKBOOK: &str = "results.xlsx";

/// A folder of tables in the making.
#[derive(Debug)]
pub(crate) struct TableFolder {
    dir: PathBuf,
    formats: Formats,
    sheets: Sheets,
}

impl TableFolder {
    /// A folder that exists, for tables in the formats asked.
    pub(crate) fn new(dir: &Path, formats: Formats) -> Self {
        Self { dir: dir.to_path_buf(), formats, sheets: Sheets::default() }
    }

    /// The formats asked.
    pub(crate) fn formats(&self) -> Formats {
        self.formats
    }

    /// Creates the files of a table with its name and columns; its rows are not written.
    pub(crate) fn create(&self, table: &Table<'_>) -> Result<Vec<OpenFile>, ReportError> {
        self.create_in(table, self.formats)
    }

    /// The same of the readings, which are too many for a workbook: a CSV file stands in for the sheet.
    pub(crate) fn create_readings(&self, table: &Table<'_>) -> Result<Vec<OpenFile>, ReportError> {
        let Formats { csv, parquet, .. } = self.formats;
        self.create_in(table, Formats { csv: csv || !parquet, xlsx: false, ..self.formats })
    }

    fn create_in(&self, table: &Table<'_>, formats: Formats) -> Result<Vec<OpenFile>, ReportError> {
        let mut files = Vec::new();
        if formats.csv {
            let path = self.dir.join(table.name).with_extension("csv");
            files.push(OpenFile { writer: Box::new(CsvFile::create(&path, table)?), path });
        }
        #[cfg(feature = "parquet")]
        if formats.parquet {
            let path = self.dir.join(table.name).with_extension("parquet");
            files.push(OpenFile { writer: Box::new(ParquetFile::create(&path, table)?), path });
        }
        if formats.parquet && !Formats::HAS_PARQUET {
            return Err(ReportError::NoParquet);
        }
        if formats.xlsx {
            let path = self.dir.join(WORKBOOK);
            files.push(OpenFile { writer: Box::new(SheetFile::create(&path, table, self.sheets.clone())?), path });
        }
        Ok(files)
    }

    /// Writes a whole table.
    pub(crate) fn write(&self, table: &Table<'_>) -> Result<(), ReportError> {
        write_to(self.create(table)?, table)
    }

    /// Completes the folder with the table that explains the columns of the others, as CSV in any case, and with the workbook,
    /// whose sheets stand in the order of `names`.
    pub(crate) fn finish(&self, columns: &Table<'_>, names: &[&str]) -> Result<(), ReportError> {
        let formats = Formats { csv: true, parquet: false, ..self.formats };
        write_to(self.create_in(columns, formats)?, columns)?;
        if self.formats.xlsx { self.sheets.save(&self.dir.join(WORKBOOK), names) } else { Ok(()) }
    }
}

fn write_to(files: Vec<OpenFile>, table: &Table<'_>) -> Result<(), ReportError> {
    for mut file in files {
        file.writer.append(table)?;
        file.writer.finish()?;
    }
    Ok(())
}
