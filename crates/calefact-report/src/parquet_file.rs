//! A table as Parquet, through polars.

use crate::ReportError;
use crate::columns::{Column, Table, Values};
use crate::table_writer::TableWriter;
use polars::prelude::{
    BatchedWriter, Column as PolarsColumn, DataFrame, DataType, IntoColumn, NamedFrom, ParquetWriter, Schema, Series,
};
use std::fs::File;
use std::path::{Path, PathBuf};

/// Rows of a Parquet row group, at least: what the file keeps of each group until its end must not grow with every few trials.
const GROUP_ROWS: usize = 1 << 13;

/// An open Parquet file.
pub(crate) struct ParquetFile {
    writer: BatchedWriter<File>,
    /// Rows that wait for their row group.
    group: DataFrame,
    path: PathBuf,
}

impl ParquetFile {
    /// Creates the file with the columns of `table`.
    pub(crate) fn create(path: &Path, table: &Table<'_>) -> Result<Self, ReportError> {
        let file = File::create(path).map_err(ReportError::io("create", path))?;
        let schema: Schema = table.columns.iter().map(|c| (c.name.as_str().into(), data_type(c))).collect();
        let writer = ParquetWriter::new(file).set_parallel(false).batched(&schema);
        let writer = writer.map_err(ReportError::parquet(path))?;
        Ok(Self { writer, group: DataFrame::empty_with_schema(&schema), path: path.to_path_buf() })
    }

    fn write_group(&mut self) -> Result<(), ReportError> {
        let mut group = self.group.clear();
        std::mem::swap(&mut group, &mut self.group);
        group.rechunk_mut();
        self.writer.write_batch(&group).map_err(ReportError::parquet(&self.path))
    }
}

impl TableWriter for ParquetFile {
    fn append(&mut self, table: &Table<'_>) -> Result<(), ReportError> {
        let columns = table.columns.iter().map(polars_column).collect();
        let rows = DataFrame::new(table.rows(), columns).map_err(ReportError::parquet(&self.path))?;
        self.group.vstack_mut(&rows).map_err(ReportError::parquet(&self.path))?;
        if self.group.height() < GROUP_ROWS { Ok(()) } else { self.write_group() }
    }

    fn finish(mut self: Box<Self>) -> Result<(), ReportError> {
        if self.group.height() > 0 {
            self.write_group()?;
        }
        self.writer.finish().map(|_| ()).map_err(ReportError::parquet(&self.path))
    }
}

fn data_type(column: &Column<'_>) -> DataType {
    match column.values {
        Values::Text(_) | Values::MissingText(_) => DataType::String,
        Values::Number(_) | Values::Missing(_) => DataType::Float64,
        Values::Count(_) => DataType::UInt64,
        Values::Flag(_) => DataType::Boolean,
    }
}

fn polars_column(column: &Column<'_>) -> PolarsColumn {
    let name = column.name.as_str().into();
    match &column.values {
        Values::Text(v) => Series::new(name, v).into_column(),
        Values::Number(v) if v.iter().any(|x| !x.is_finite()) => {
            let v: Vec<Option<f64>> = v.iter().map(|x| x.is_finite().then_some(*x)).collect();
            Series::new(name, v).into_column()
        }
        Values::Number(v) => Series::new(name, &**v).into_column(),
        Values::Count(v) => Series::new(name, v).into_column(),
        Values::Flag(v) => Series::new(name, v).into_column(),
        Values::Missing(rows) | Values::MissingText(rows) => PolarsColumn::full_null(name, *rows, &data_type(column)),
    }
}
