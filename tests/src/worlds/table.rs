//! Tables that the command wrote, read back.

use std::collections::BTreeMap;
use std::path::Path;

/// A row of a table by column.
#[derive(Debug, Clone)]
pub(super) struct Row(BTreeMap<String, String>);

/// All rows of a table of a results folder.
///
/// # Panics
/// If there is no such table.
pub(super) fn rows(results: &Path, name: &str) -> Vec<Row> {
    let path = results.join(format!("tables/{name}.csv"));
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    reader.deserialize().map(|row| Row(row.expect("a row of text"))).collect()
}

impl Row {
    /// A cell.
    ///
    /// # Panics
    /// If the table has no such column.
    pub(super) fn text(&self, column: &str) -> &str {
        self.0.get(column).map_or_else(|| panic!("no column {column}"), String::as_str)
    }

    /// A number; none where the cell is blank or holds none.
    pub(super) fn number(&self, column: &str) -> Option<f64> {
        self.text(column).parse().ok().filter(|x: &f64| x.is_finite())
    }

    /// Whether cells hold these texts.
    pub(super) fn has(&self, cells: &[(&str, &str)]) -> bool {
        cells.iter().all(|(column, text)| self.text(column) == *text)
    }
}
