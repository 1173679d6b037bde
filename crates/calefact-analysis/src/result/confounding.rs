//! What runs along with the factor compared in part; what does so wholly is a fact, [`crate::fact::ConfoundedColumn`].

use serde::Serialize;

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
