//! Reasons for which variables make no design.

use thiserror::Error;

/// Why a design cannot be built.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DesignError {
    /// Variables of unequal length.
    #[error("`{name}` has {found} values where the others have {expected}")]
    Length {
        /// The variable.
        name: String,
        /// Its number of values.
        found: usize,
        /// The number expected.
        expected: usize,
    },
    /// A factor with fewer than two levels compares nothing.
    #[error("`{0}` has only one level here, so there is nothing to compare")]
    OneLevel(String),
    /// A covariate that is not a number everywhere.
    #[error("`{0}` is missing or not a number for some trials")]
    NotFinite(String),
    /// An interaction names no variable of the design, or one variable twice.
    #[error("an interaction needs two or more different variables of the design")]
    Interaction,
}
