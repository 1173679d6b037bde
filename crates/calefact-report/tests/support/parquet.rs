//! Parquet holds what CSV holds.

use super::write_as;
use calefact_report::Formats;
use polars::prelude::{AnyValue, DataFrame, ParquetReader, SerReader};
use std::fs::File;
use std::path::Path;

#[test]
fn parquet_holds_what_csv_holds() {
    let dir = tempfile::tempdir().unwrap();
    let formats = Formats { parquet: true, readings: true, ..Formats::default() };
    let summary = write_as(formats, &dir.path().join("r"), &[], dir.path());
    let mut compared = 0;
    for file in summary.files.iter().filter(|f| f.extension().is_some_and(|e| e == "parquet")) {
        let path = summary.folder.join(file);
        let frame = ParquetReader::new(File::open(&path).unwrap()).finish().unwrap();
        compare(&frame, &path.with_extension("csv"));
        compared += 1;
    }
    assert_eq!(compared, 14, "one Parquet file a table");
}

/// Every cell of the CSV file reads as the Parquet value; numbers to the last bit.
fn compare(frame: &DataFrame, csv: &Path) {
    let mut reader = csv::Reader::from_path(csv).unwrap();
    let header: Vec<String> = reader.headers().unwrap().iter().map(Into::into).collect();
    assert_eq!(
        header,
        frame.get_column_names().iter().map(ToString::to_string).collect::<Vec<_>>(),
        "{}",
        csv.display()
    );
    let mut rows = 0;
    for record in reader.records() {
        let record = record.unwrap();
        for (column, text) in frame.columns().iter().zip(&record) {
            assert!(same(&column.get(rows).unwrap(), text), "{} row {rows} {}: {text}", csv.display(), column.name());
        }
        rows += 1;
    }
    assert_eq!(rows, frame.height(), "{}", csv.display());
}

fn same(value: &AnyValue, text: &str) -> bool {
    match value {
        AnyValue::Null => text.is_empty(),
        AnyValue::String(s) => *s == text,
        AnyValue::StringOwned(s) => s.as_str() == text,
        AnyValue::Float64(x) => text.parse::<f64>().is_ok_and(|y| y.to_bits() == x.to_bits()),
        AnyValue::UInt64(x) => text.parse::<u64>() == Ok(*x),
        AnyValue::Int32(x) => text.parse::<i32>() == Ok(*x),
        AnyValue::Boolean(x) => text.parse::<bool>() == Ok(*x),
        _ => false,
    }
}
