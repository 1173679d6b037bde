//! The two forms of a table on disk, CSV and Parquet, written piece by piece: a table of thousands of trials is never whole in
//! memory.

use crate::columns::Table;
use crate::parquet_file::ParquetFile;
use crate::{Formats, ReportError};
use std::fs::File;
use std::path::{Path, PathBuf};

/// An open table.
pub(crate) struct TableFile {
    csv: Option<CsvFile>,
    parquet: Option<ParquetFile>,
}

impl TableFile {
    /// Creates the files of the formats asked in a folder, with the name and columns of `table`; its rows are not written.
    pub(crate) fn create(dir: &Path, table: &Table<'_>, formats: Formats) -> Result<Self, ReportError> {
        let path = dir.join(table.name);
        let csv = formats.csv.then(|| CsvFile::create(path.with_extension("csv"), table)).transpose()?;
        let parquet =
            formats.parquet.then(|| ParquetFile::create(path.with_extension("parquet"), table)).transpose()?;
        Ok(Self { csv, parquet })
    }

    /// Adds the rows of a table of the same columns.
    pub(crate) fn append(&mut self, table: &Table<'_>) -> Result<(), ReportError> {
        let Self { csv, parquet } = self;
        let csv = || csv.as_mut().map_or(Ok(()), |file| file.append(table));
        let parquet = || parquet.as_mut().map_or(Ok(()), |file| file.append(table));
        let (csv, parquet) = rayon::join(csv, parquet);
        csv.and(parquet)
    }

    /// Completes the files.
    pub(crate) fn finish(self) -> Result<(), ReportError> {
        self.csv.map_or(Ok(()), CsvFile::finish)?;
        self.parquet.map_or(Ok(()), ParquetFile::finish)
    }

    /// Writes a whole table.
    pub(crate) fn write(dir: &Path, table: &Table<'_>, formats: Formats) -> Result<(), ReportError> {
        let mut file = Self::create(dir, table, formats)?;
        file.append(table)?;
        file.finish()
    }
}

/// RFC 4180, lines ended by LF.
struct CsvFile {
    writer: csv::Writer<File>,
    path: PathBuf,
}

impl CsvFile {
    fn create(path: PathBuf, table: &Table<'_>) -> Result<Self, ReportError> {
        let fail = |e: csv::Error| ReportError::io("write", &path)(e.into());
        let mut writer = csv::WriterBuilder::new().from_path(&path).map_err(fail)?;
        writer.write_record(table.columns.iter().map(|c| c.name.as_str())).map_err(fail)?;
        Ok(Self { writer, path })
    }

    fn append(&mut self, table: &Table<'_>) -> Result<(), ReportError> {
        let fail = |e: csv::Error| ReportError::io("write", &self.path)(e.into());
        let mut cell = Vec::new();
        for row in 0..table.rows() {
            for column in &table.columns {
                cell.clear();
                column.values.push(row, &mut cell);
                self.writer.write_field(&cell).map_err(fail)?;
            }
            self.writer.write_record(None::<&[u8]>).map_err(fail)?;
        }
        Ok(())
    }

    fn finish(mut self) -> Result<(), ReportError> {
        self.writer.flush().map_err(ReportError::io("write", &self.path))
    }
}
