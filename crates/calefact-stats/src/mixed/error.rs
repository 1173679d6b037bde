//! Reasons for which a mixed model gives no answer.

use thiserror::Error;

/// Why a mixed model could not be fitted or tested.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum MixedError {
    /// Sizes of response, design, blocks or hypothesis differ.
    #[error("response, design and blocks differ in length")]
    Sizes,
    /// No degrees of freedom left, or columns of the design depend on each other.
    #[error("the fixed effects cannot all be estimated from these observations")]
    RankDeficient,
    /// The residual variance is zero or not a number.
    #[error("the observations leave no residual scatter")]
    NoScatter,
    /// Iterations did not settle.
    #[error("the variances did not settle")]
    NotConverged,
}
