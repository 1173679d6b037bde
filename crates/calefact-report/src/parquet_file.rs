//! A table as Parquet, through polars.

use crate::ReportError;
use crate::columns::{Column, Table, Values};
use polars::prelude::{
    BatchedWriter, Column as Series, DataFrame, DataType, IntoColumn, NamedFrom, ParquetWriter, Schema,
};
use std::fs::File;
use std::path::PathBuf;

/// Rows of a Parquet row group, at least: what the file keeps of each group until its end must not grow with every few trials.
const GROUP_ROWS: usize = 1 << 13;

/// An open table.
pub(crate) struct ParquetFile {
    writer: BatchedWriter<File>,
    /// Rows that wait for their row group.
    group: DataFrame,
    path: PathBuf,
}

impl ParquetFile {
    /// Creates the file with the columns of `table`.
    pub(crate) fn create(path: PathBuf, table: &Table<'_>) -> Result<Self, ReportError> {
        let file = File::create(&path).map_err(ReportError::io("create", &path))?;
        let schema: Schema = table.columns.iter().map(|c| (c.name.as_str().into(), dtype(c))).collect();
        let writer = ParquetWriter::new(file).set_parallel(false).batched(&schema);
        let writer = writer.map_err(ReportError::parquet(&path))?;
        Ok(Self { writer, group: DataFrame::empty_with_schema(&schema), path })
    }

    /// Adds the rows of a table of the same columns.
    pub(crate) fn append(&mut self, table: &Table<'_>) -> Result<(), ReportError> {
        let columns = table.columns.iter().map(series).collect();
        let rows = DataFrame::new(table.rows(), columns).map_err(ReportError::parquet(&self.path))?;
        self.group.vstack_mut(&rows).map_err(ReportError::parquet(&self.path))?;
        if self.group.height() < GROUP_ROWS { Ok(()) } else { self.write_group() }
    }

    fn write_group(&mut self) -> Result<(), ReportError> {
        let mut group = self.group.clear();
        std::mem::swap(&mut group, &mut self.group);
        group.rechunk_mut();
        self.writer.write_batch(&group).map_err(ReportError::parquet(&self.path))
    }

    /// Completes the file.
    pub(crate) fn finish(mut self) -> Result<(), ReportError> {
        if self.group.height() > 0 {
            self.write_group()?;
        }
        self.writer.finish().map(|_| ()).map_err(ReportError::parquet(&self.path))
    }
}

fn dtype(column: &Column<'_>) -> DataType {
    match column.values {
        Values::Text(_) => DataType::String,
        Values::Number(_) => DataType::Float64,
        Values::Count(_) => DataType::UInt64,
        Values::Flag(_) => DataType::Boolean,
    }
}

fn series(column: &Column<'_>) -> Series {
    let name = column.name.as_str().into();
    match &column.values {
        Values::Text(v) => polars::prelude::Series::new(name, v).into_column(),
        Values::Number(v) => {
            let v: Vec<Option<f64>> = v.iter().map(|x| (!x.is_nan()).then_some(*x)).collect();
            polars::prelude::Series::new(name, v).into_column()
        }
        Values::Count(v) => polars::prelude::Series::new(name, v).into_column(),
        Values::Flag(v) => polars::prelude::Series::new(name, v).into_column(),
    }
}
