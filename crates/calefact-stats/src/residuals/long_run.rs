//! What a first-order autoregression leaves over: long-run variance of its innovations beyond their ordinary variance.

use super::hac::{automatic_lag, long_run_ratio};
use nalgebra::DVector;

/// Ratio of the long-run variance of the innovations e_i - rho e_{i-1} to their variance, at least one: prewhitening
/// (Andrews and Monahan 1992) followed by Newey and West's Bartlett sum. One when the autoregression says it all.
pub(super) fn excess(residuals: &[f64], rho: f64) -> f64 {
    let innovations = DVector::from_iterator(residuals.len() - 1, residuals.windows(2).map(|w| w[1] - rho * w[0]));
    let lag = automatic_lag(residuals.len());
    let ratio = long_run_ratio(&innovations, lag);
    // Standard deviation of the ratio for white noise, sqrt(4 L / (3 n)) (Anderson 1971, 9.4).
    let noise = (4.0 * (lag as f64 + 1.0) / (3.0 * residuals.len() as f64)).sqrt();
    if ratio > 1.0 + 2.0 * noise { ratio } else { 1.0 }
}
