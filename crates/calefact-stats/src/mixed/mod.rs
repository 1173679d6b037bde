//! Linear mixed model: fixed effects beta, random blocks, residual error.
//!
//! y = X beta + sum of random parts + e, with covariance V = sum over i of theta_i G_i: theta_0 is the residual variance
//! (G_0 = I), the others are variances (and covariances) of the random parts ([`structure`]). Estimation by REML or ML is in
//! [`fit`], tests of fixed effects by Kenward-Roger or Satterthwaite in [`inference`], the quantities both need in
//! `state`. The number of observations may be large; those tied together by random parts may be a thousand. For a single random
//! intercept `intercepts` gathers the observations first, so that there is no such bound.

pub mod fit;
pub mod inference;
mod intercepts;
mod maximise;
mod state;
pub mod structure;

pub use fit::{Criterion, MixedFit};
pub use inference::DofMethod;
pub use structure::Component;

use thiserror::Error;

/// Why a mixed model could not be fitted or asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum MixedError {
    /// Sizes of response, design and random parts differ.
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
    /// Kenward-Roger is defined for REML estimates.
    #[error("Kenward-Roger needs a fit by REML")]
    NeedsReml,
    /// More observations tied together by random parts than dense matrices can carry.
    #[error("too many observations are tied together by random blocks")]
    TooLarge,
}
