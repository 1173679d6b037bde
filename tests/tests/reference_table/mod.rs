//! Reading a reference table into rows by column name.

use calefact_tests::reference;
use std::collections::BTreeMap;

/// One row of a reference table, by column name.
pub(crate) type Row = BTreeMap<String, String>;

/// Rows of a reference table with a header line, read from the folder `stats-data`; `None` when it is absent.
///
/// # Panics
/// When the table cannot be read or a row is longer or shorter than the header.
pub(crate) fn table(rel_path: &str) -> Option<Vec<Row>> {
    let mut reader = csv::Reader::from_path(reference(&format!("reference/stats-data/{rel_path}"))?)
        .unwrap_or_else(|e| panic!("{rel_path}: {e}"));
    let rows = reader.deserialize().map(|row| row.unwrap_or_else(|e| panic!("{rel_path}: {e}")));
    Some(rows.collect())
}

/// Number in a column of a row.
///
/// # Panics
/// When the column is missing or not a number.
pub(crate) fn number(row: &Row, column: &str) -> f64 {
    let text = row.get(column).unwrap_or_else(|| panic!("no column {column}"));
    text.parse().unwrap_or_else(|e| panic!("{column} {text:?}: {e}"))
}
