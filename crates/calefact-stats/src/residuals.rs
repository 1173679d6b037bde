//! What residuals in time order tell: runs, autocorrelation, the effective number of readings, covariances that hold when
//! neighbours are correlated, and lack of fit.
//!
//! A logger that reads every second does not give independent errors; an interval that treats it so is far too narrow.
//! Fitting itself lives in `linear` and `nonlinear`.

mod ar1;
mod autocorrelation;
mod descent;
mod filter;
mod hac;
mod lack_of_fit;
mod moments;
mod reml;
mod robust;
mod runs;
mod satterthwaite;

pub use ar1::{FirstObservation, ar1_least_squares};
pub use autocorrelation::{effective_sample_size, variance_inflation};
pub use hac::{automatic_lag, newey_west};
pub use lack_of_fit::{LackOfFit, lack_of_fit};
pub use robust::{RobustCovariance, robust_covariance};
pub use runs::{RunsTest, runs_test};
