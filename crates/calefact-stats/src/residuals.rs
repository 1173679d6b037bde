//! What residuals in time order tell: runs, autocorrelation, and a covariance that holds when neighbours are correlated.
//!
//! A logger that reads every second does not give independent errors; an interval that treats it so is far too narrow.
//! Fitting itself lives in [`crate::linear`].

mod autocorrelation;
mod basis;
mod descent;
mod errors;
mod filter;
mod reml;
mod robust;
mod runs;
mod satterthwaite;
mod trend;

pub use autocorrelation::effective_sample_size;
pub use robust::{ErrorStructure, RobustCovariance, robust_covariance};
pub use runs::few_runs_p;
pub use trend::trend_p;
