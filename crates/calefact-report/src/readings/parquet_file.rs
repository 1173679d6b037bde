//! The readings table as Parquet, one row group a batch, zstd.

use super::batch::Batch;
use super::schema;
use super::worker::BatchFile;
use crate::ReportError;
use calefact_data::Channel;
use polars::prelude::{
    BatchedWriter, Column, DataFrame, DataType, IntoColumn, NamedFrom, ParquetCompression, ParquetWriter, Schema,
    Series,
};
use std::fs::File;
use std::path::{Path, PathBuf};

/// An open `readings.parquet`.
pub(super) struct ParquetFile {
    writer: BatchedWriter<File>,
    path: PathBuf,
}

impl ParquetFile {
    /// Creates the file.
    pub(super) fn create(path: &Path) -> Result<Self, ReportError> {
        let file = File::create(path).map_err(ReportError::io("create", path))?;
        let schema: Schema = schema::columns().map(|(name, ..)| (name.into(), dtype(name))).collect();
        let writer = ParquetWriter::new(file)
            .with_compression(ParquetCompression::Zstd(None))
            .set_parallel(false)
            .batched(&schema)
            .map_err(ReportError::parquet(path))?;
        Ok(Self { writer, path: path.to_path_buf() })
    }
}

impl BatchFile for ParquetFile {
    /// A batch is one row group.
    fn write(&mut self, batch: &Batch) -> Result<(), ReportError> {
        let frame = DataFrame::new(batch.len(), columns(batch)).map_err(ReportError::parquet(&self.path))?;
        self.writer.write_batch(&frame).map_err(ReportError::parquet(&self.path))
    }

    fn finish(self) -> Result<(), ReportError> {
        self.writer.finish().map(|_| ()).map_err(ReportError::parquet(&self.path))
    }
}

/// Type of a column.
fn dtype(name: &str) -> DataType {
    match name {
        "trial" | "event" | "note" => DataType::String,
        "flag" => DataType::Int32,
        _ => DataType::Float64,
    }
}

/// The columns of a batch in the order of the schema.
fn columns(batch: &Batch) -> Vec<Column> {
    let trials: Vec<&str> = batch.trials.iter().flat_map(|(id, n)| std::iter::repeat_n(id.as_str(), *n)).collect();
    let mut columns =
        vec![Series::new("trial".into(), trials).into_column(), numbers("elapsed_s", &batch.elapsed, batch.len())];
    columns.extend(Channel::ALL.iter().zip(&batch.channels).map(|(c, values)| numbers(c.name(), values, batch.len())));
    columns.push(remarks("event", &batch.events, batch.len()));
    columns.push(remarks("note", &batch.notes, batch.len()));
    let flags: Vec<i32> = batch.flags.iter().copied().map(i32::from).collect();
    columns.push(Series::new("flag".into(), flags).into_column());
    columns
}

/// A column of numbers; NaN becomes null, no values at all become `rows` nulls.
fn numbers(name: &str, values: &[f64], rows: usize) -> Column {
    if values.iter().all(|v| v.is_nan()) {
        return Column::full_null(name.into(), rows, &DataType::Float64);
    }
    if values.iter().any(|v| v.is_nan()) {
        let values: Vec<Option<f64>> = values.iter().map(|v| (!v.is_nan()).then_some(*v)).collect();
        return Series::new(name.into(), values).into_column();
    }
    Series::new(name.into(), values).into_column()
}

/// A column of remarks; most rows have none.
fn remarks(name: &str, remarks: &[(usize, String)], rows: usize) -> Column {
    if remarks.is_empty() {
        return Column::full_null(name.into(), rows, &DataType::String);
    }
    let mut values: Vec<Option<&str>> = vec![None; rows];
    for (row, text) in remarks {
        values[*row] = Some(text);
    }
    Series::new(name.into(), values).into_column()
}
