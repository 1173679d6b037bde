//! Whether a fitted curve deserves belief: size of the residuals and whether they wander.

use crate::result::FitQuality;
use calefact_stats::{residuals, univariate};

/// p-value of the runs test below which the residuals are taken to wander.
pub const RUNS_LIMIT: f64 = 0.01;
/// Residual standard deviation, as a share of the temperature range, above which wandering matters.
pub const SIZE_LIMIT: f64 = 0.01;
/// Readings below which the runs test says nothing.
const FEW: usize = 10;

/// Judges residuals (K) of a curve that spans `range` K with `free` parameters, read with a display step of standard
/// uncertainty `resolution` K.
pub fn judge(residuals_k: &[f64], range: f64, free: usize, resolution: f64) -> FitQuality {
    let n = residuals_k.len();
    let dof = n.saturating_sub(free);
    let residual_sd =
        if dof == 0 { f64::NAN } else { (residuals_k.iter().map(|r| r * r).sum::<f64>() / dof as f64).sqrt() };
    let lag_one = (n >= FEW).then(|| univariate::lag1(residuals_k)).filter(|r| r.is_finite());
    let runs_p = (n >= FEW).then(|| residuals::few_runs_p(residuals_k)).flatten();
    let wanders = runs_p.is_some_and(|p| p < RUNS_LIMIT);
    let share = residual_sd / range.abs();
    // A display step makes residuals wander without saying anything about the model.
    let coarse = residual_sd < 2.0 * resolution;
    let fits = coarse || !(wanders && share > SIZE_LIMIT || share > 5.0 * SIZE_LIMIT);
    FitQuality { n, residual_sd, lag_one, runs_p, fits, verdict: words(residual_sd, share, wanders, fits, dof) }
}

fn words(sd: f64, share: f64, wanders: bool, fits: bool, dof: usize) -> String {
    if dof == 0 {
        return "as many parameters as readings: the fit cannot be judged".into();
    }
    let size = format!("residuals of {sd:.2} K, {:.1} % of the range", 100.0 * share);
    match (fits, wanders) {
        (true, false) => format!("fits: {size}, without pattern"),
        (true, true) => format!("fits well enough for an average: {size}, though they wander"),
        (false, true) => format!("does not fit: {size}, and they wander; a constant heat flow does not describe it"),
        (false, false) => format!("fits poorly: {size}"),
    }
}
