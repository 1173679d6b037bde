//! Generalised least squares for a known correlation between neighbours.

use crate::fit_error::FitError;
use crate::linear::{LinearFit, least_squares};
use nalgebra::DMatrix;

/// What becomes of the first observation, which has no neighbour before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FirstObservation {
    /// Kept, scaled by sqrt(1 - rho^2): Prais and Winsten (1954), exact generalised least squares.
    Kept,
    /// Dropped: Cochrane and Orcutt (1949).
    Dropped,
}

/// Least squares of y_i - rho y_{i-1} on x_i - rho x_{i-1}. The residual variance of the answer is that of the
/// innovations; residuals are those of the transformed observations.
///
/// # Errors
/// As [`least_squares`]; [`FitError::NotUsable`] unless -1 < rho < 1.
pub fn ar1_least_squares(
    design: &DMatrix<f64>,
    y: &[f64],
    rho: f64,
    first: FirstObservation,
) -> Result<LinearFit, FitError> {
    let (n, p) = design.shape();
    if rho.is_nan() || rho.abs() >= 1.0 {
        return Err(FitError::NotUsable("the correlation"));
    }
    if y.len() != n {
        return Err(FitError::Length { what: "observations", got: y.len(), want: n });
    }
    let root = (1.0 - rho * rho).sqrt();
    let step =
        |i: usize, now: f64, before: Option<f64>| if i == 0 { now * root } else { now - rho * before.unwrap_or(0.0) };
    let skip = usize::from(first == FirstObservation::Dropped);
    let x = DMatrix::from_fn(n.saturating_sub(skip), p, |k, j| {
        let i = k + skip;
        step(i, design[(i, j)], (i > 0).then(|| design[(i - 1, j)]))
    });
    let z: Vec<f64> = (skip..n).map(|i| step(i, y[i], (i > 0).then(|| y[i - 1]))).collect();
    least_squares(&x, &z)
}
