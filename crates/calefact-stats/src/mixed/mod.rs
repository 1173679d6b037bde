//! Linear mixed model: fixed effects beta, one random intercept a block or none, residual error.
//!
//! y = X beta + block effect + e, with covariance V = s I + t B: s is the residual variance, t the variance between blocks,
//! and B is 1 where two observations share a block. Estimation is by restricted maximum likelihood (REML; Patterson &
//! Thompson 1971, Biometrika 58:545), which frees the variances of the fixed effects. `coordinates` gathers the
//! observations, `likelihood` holds what is computed at given variances, `maximise` finds the best ones, `fit` keeps the
//! answer and `inference` tests it. The design itself lives in [`crate::design`].

mod coordinates;
mod error;
mod fit;
mod inference;
mod likelihood;
mod maximise;

pub use error::MixedError;
pub use fit::MixedFit;
