//! Columns that change together with the factor compared, so that no trial tells the two apart.

use serde::Serialize;

/// A column that no trial separates from the factor: a difference between the two levels may be due to either.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ConfoundedColumn {
    /// The column.
    pub column: String,
    /// Its levels in the trials of the first level; an empty name where the cell is blank.
    pub a: Vec<String>,
    /// Its levels in the trials of the second level.
    pub b: Vec<String>,
}

impl ConfoundedColumn {
    /// Whether the two levels of the factor have no level of the column in common.
    pub fn is_disjoint(&self) -> bool {
        !self.a.iter().any(|level| self.b.contains(level))
    }
}

/// Two levels and the columns that change together with them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConfoundedPair {
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// The columns.
    pub columns: Vec<ConfoundedColumn>,
}
