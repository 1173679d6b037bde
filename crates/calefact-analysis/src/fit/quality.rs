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
    /// p-value of a pattern in the residuals, if enough readings: runs of one sign, and with few readings a bend too.
    pub pattern_p: Option<f64>,
    /// Whether the residuals wander by that.
    pub wanders: bool,
    /// Whether the model is taken to fit.
    pub fits: bool,
}

/// p-value of a pattern below which the residuals are taken to wander.
pub(crate) const PATTERN_LIMIT: f64 = 0.01;
/// Residual standard deviation, as a share of the temperature range, above which wandering matters.
pub(crate) const SIZE_LIMIT: f64 = 0.01;
/// Readings below which an autocorrelation says nothing.
const FEW: usize = 10;
/// Readings from which runs alone serve. Below, they hardly reach the limit (of twelve readings four runs have a probability of
/// 0.07), and a bend is looked for beside them. Many readings hang together, which would pass for a bend.
const MANY: usize = 30;

/// Judges residuals (K) of a curve that spans `range` K with `free` parameters, read with a display step of standard
/// uncertainty `resolution` K.
pub(crate) fn judge(residuals_k: &[f64], range: f64, free: usize, resolution: f64) -> FitQuality {
    let n = residuals_k.len();
    let dof = n.saturating_sub(free);
    let residual_sd_k =
        if dof == 0 { f64::NAN } else { (residuals_k.iter().map(|r| r * r).sum::<f64>() / dof as f64).sqrt() };
    let lag_one = (n >= FEW).then(|| univariate::lag1(residuals_k)).filter(|r| r.is_finite());
    let pattern_p = pattern(residuals_k, free);
    let wanders = pattern_p.is_some_and(|p| p < PATTERN_LIMIT);
    let share_of_range = residual_sd_k / range.abs();
    // A display step makes residuals wander without saying anything about the model.
    let coarse = residual_sd_k < 2.0 * resolution;
    let fits = coarse || !(wanders && share_of_range > SIZE_LIMIT || share_of_range > 5.0 * SIZE_LIMIT);
    FitQuality { n, residual_sd_k, share_of_range, lag_one, pattern_p, wanders, fits }
}

/// p-value of the runs, or of runs and bend together (twice the lesser, Bonferroni).
fn pattern(residuals_k: &[f64], free: usize) -> Option<f64> {
    let runs = residuals::few_runs_p(residuals_k);
    if residuals_k.len() >= MANY {
        return runs;
    }
    let bend = residuals::trend_p(residuals_k, free);
    let least = [runs, bend].into_iter().flatten().min_by(f64::total_cmp)?;
    Some((2.0 * least).min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four runs of six and six signs are no rarity (62 of 924 arrangements), the bend is.
    #[test]
    fn twelve_residuals_that_swing_twice_wander() {
        let swing = [2.5, -0.5, -1.3, -2.0, -1.6, -0.2, 0.2, 1.8, 1.6, 1.4, 0.5, -2.6];
        assert!((residuals::few_runs_p(&swing).expect("signs") - 62.0 / 924.0).abs() < 1e-12);
        for free in [2, 3] {
            let found = judge(&swing, 50.0, free, 0.03);
            assert!(found.wanders && !found.fits, "{found:?}");
        }
        let mixed = [2.5, -0.5, 1.3, -2.0, -1.6, 0.2, -0.2, 1.8, -1.6, 1.4, 0.5, -2.6];
        assert!(!judge(&mixed, 50.0, 2, 0.03).wanders);
    }

    #[test]
    fn six_readings_can_show_a_bend_and_five_cannot() {
        let bend = [1.0, -0.19, -0.81, -0.80, -0.21, 1.01];
        assert!(judge(&bend, 20.0, 2, 0.0).wanders);
        assert!(!judge(&bend[..5], 20.0, 3, 0.0).wanders);
    }
}
