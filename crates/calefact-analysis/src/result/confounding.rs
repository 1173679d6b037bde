//! Columns that change together with the factor compared: wholly, so that nothing tells the two apart, or in part.

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

/// A level of another column that is commoner with one level of the factor than with the other.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Uneven {
    /// Factor compared.
    pub factor: String,
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// The other column.
    pub column: String,
    /// Its level.
    pub level: String,
    /// Trials of the first level that have it, and all of them.
    pub of_a: (usize, usize),
    /// Trials of the second level that have it, and all of them.
    pub of_b: (usize, usize),
    /// Share of the trials that would have to change for the two to be alike: half the sum of the distances of the shares.
    pub distance: f64,
}

/// A condition of the trials that differs between two levels of the factor.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UnevenCondition {
    /// Factor compared.
    pub factor: String,
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// Name of the condition.
    pub condition: String,
    /// Its means, in SI.
    pub means: (f64, f64),
    /// Distance of the means in standard deviations within the levels; infinite where neither varies.
    pub standardised: f64,
}
