//! Nonlinear least squares of a curve with an analytic Jacobian: several starts, Levenberg-Marquardt from each, false
//! optima refused, covariance from the final Jacobian.
//!
//! Errors are taken as independent with one variance; correlated residuals are dealt with in `residuals`. What a curve
//! means does not live here: a model comes in as a [`CurveModel`].

mod covariance;
mod fit;
mod polish;
mod problem;
mod starts;

pub use fit::{CurveFit, fit};
pub use starts::spread;

/// A curve y_i(p), i = 1..n, at fixed abscissae which the model holds.
pub trait CurveModel {
    /// Number of parameters.
    fn parameters(&self) -> usize;

    /// Writes the predicted values at parameters `p` into `out`, one per observation.
    fn predict(&self, p: &[f64], out: &mut [f64]);

    /// Writes the derivatives d y_i / d p_j at `p` into `out`, row by row: `out[i * parameters + j]`.
    fn jacobian(&self, p: &[f64], out: &mut [f64]);
}
