//! Whether a fitted curve deserves belief: size of the residuals and whether they wander.

use calefact_stats::{residuals, univariate};
use serde::Serialize;

/// How well the heat-balance model fits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FitQuality {
    /// Readings in the fit.
    pub n: usize,
    /// Residual standard deviation; NaN with as many parameters as readings.
    pub residual_sd_k: f64,
    /// The same as a share of the range of the curve.
    pub share_of_range: f64,
    /// Lag-one autocorrelation of the residuals, if enough readings.
    pub lag_one: Option<f64>,
    /// p-value of the runs test of the residuals, if enough readings.
    pub runs_p: Option<f64>,
    /// Whether the residuals wander by that test.
    pub wanders: bool,
    /// Whether the model is taken to fit.
    pub fits: bool,
}

/// p-value of the runs test below which the residuals are taken to wander.
pub(crate) const RUNS_LIMIT: f64 = 0.01;
/// Residual standard deviation, as a share of the temperature range, above which wandering matters.
pub(crate) const SIZE_LIMIT: f64 = 0.01;
/// Readings below which the runs test says nothing.
const FEW: usize = 10;

/// Judges residuals (K) of a curve that spans `range` K with `free` parameters, read with a display step of standard
/// uncertainty `resolution` K.
pub(crate) fn judge(residuals_k: &[f64], range: f64, free: usize, resolution: f64) -> FitQuality {
    let n = residuals_k.len();
    let dof = n.saturating_sub(free);
    let residual_sd_k =
        if dof == 0 { f64::NAN } else { (residuals_k.iter().map(|r| r * r).sum::<f64>() / dof as f64).sqrt() };
    let lag_one = (n >= FEW).then(|| univariate::lag1(residuals_k)).filter(|r| r.is_finite());
    let runs_p = (n >= FEW).then(|| residuals::few_runs_p(residuals_k)).flatten();
    let wanders = runs_p.is_some_and(|p| p < RUNS_LIMIT);
    let share_of_range = residual_sd_k / range.abs();
    // A display step makes residuals wander without saying anything about the model.
    let coarse = residual_sd_k < 2.0 * resolution;
    let fits = coarse || !(wanders && share_of_range > SIZE_LIMIT || share_of_range > 5.0 * SIZE_LIMIT);
    FitQuality { n, residual_sd_k, share_of_range, lag_one, runs_p, wanders, fits }
}
