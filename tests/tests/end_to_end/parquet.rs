//! The tables as CSV and as Parquet hold the same.

use super::{run, table};
use calefact_tests::{TinyDataset, Workspace};
use polars::prelude::{AnyValue, ParquetReader, SerReader};
use std::fs::File;
use std::path::Path;

const FORMATS: &str = "\n[outputs]\nformats = [\"csv\", \"parquet\"]\n";

#[test]
fn parquet_equals_csv() {
    let w = Workspace::new();
    let mut data = TinyDataset::new();
    data.pipeline.push_str(FORMATS);
    data.write(&w);
    assert_eq!(run(&w).code, 0);
    let names = ["readings", "estimates", "groups", "contrasts", "budget", "balance", "findings"];
    for name in names {
        same(&w.join(&format!("out/tables/{name}.csv")), &w.join(&format!("out/tables/{name}.parquet")));
    }
}

fn same(csv: &Path, parquet: &Path) {
    let frame = ParquetReader::new(File::open(parquet).expect("a file")).finish().expect("a table");
    let rows = table(csv);
    assert_eq!(rows.len(), frame.height(), "{}", csv.display());
    for column in frame.columns() {
        for (i, row) in rows.iter().enumerate() {
            let (text, value) = (&row[column.name().as_str()], column.get(i).expect("a cell"));
            assert!(cell_equals(text, &value), "{} row {i}: `{text}` against {value:?}", csv.display());
        }
    }
}

fn cell_equals(text: &str, value: &AnyValue<'_>) -> bool {
    match value {
        AnyValue::Null => text.is_empty(),
        AnyValue::String(s) => s == &text,
        AnyValue::StringOwned(s) => s.as_str() == text,
        AnyValue::Boolean(b) => text == b.to_string(),
        number => match (number.try_extract::<f64>(), text.parse::<f64>()) {
            // The CSV may be rounded to the digits that mean something.
            (Ok(a), Ok(b)) => a.total_cmp(&b).is_eq() || (a - b).abs() <= 1e-9 * a.abs().max(1e-300),
            _ => false,
        },
    }
}
