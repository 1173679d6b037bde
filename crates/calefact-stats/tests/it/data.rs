//! Reading tables of figures, and comparing with them.

use std::collections::BTreeMap;

/// One row of a table, by column name.
pub(crate) type Row = BTreeMap<String, String>;

/// Rows of a table under `tests/data`.
///
/// # Panics
/// When the table is missing, has no rows or cannot be read.
pub(crate) fn table(name: &str) -> Vec<Row> {
    let path = format!("{}/../../tests/data/{name}", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
    let rows: Vec<Row> = reader.deserialize().map(|row| row.unwrap_or_else(|e| panic!("{path}: {e}"))).collect();
    assert!(!rows.is_empty(), "{path} has no rows");
    rows
}

/// A cell as a number.
///
/// # Panics
/// When the column is missing or holds no number.
pub(crate) fn number(row: &Row, column: &str) -> f64 {
    let text = row.get(column).unwrap_or_else(|| panic!("no column {column}"));
    text.parse().unwrap_or_else(|e| panic!("{column} {text:?}: {e}"))
}

/// A column as numbers.
pub(crate) fn column(rows: &[Row], name: &str) -> Vec<f64> {
    rows.iter().map(|r| number(r, name)).collect()
}

/// Rows whose column `by` holds `wanted`.
pub(crate) fn only<'r>(rows: &'r [Row], by: &str, wanted: &str) -> Vec<&'r Row> {
    rows.iter().filter(|r| r[by] == wanted).collect()
}

/// Fails unless `got` is within a share `relative` of `want`.
#[track_caller]
pub(crate) fn agree(what: &str, got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "{what}: got {got}, want {want}");
}

/// Fails unless `got` is within `tolerance` of `want`.
#[track_caller]
pub(crate) fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "got {got:e}, want {want:e}");
}
