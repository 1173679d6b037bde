//! Covariance of least squares that allows for unequal variances and for correlation between neighbours, without a model
//! of either.

use super::moments::inverse_gram;
use crate::fit_error::FitError;
use nalgebra::{DMatrix, DVector};

/// Newey and West's (1987) covariance (J'J)^-1 S (J'J)^-1 with S = sum over lags l of w_l (G_l + G_l'), G_l = sum
/// e_i e_{i-l} J_i J_{i-l}', Bartlett weights w_l = 1 - l/(L + 1), w_0 = 1/2 + 1/2.
///
/// `small_sample` multiplies by n/(n - p), as Stata's `newey` does. The interval it gives is too narrow when the
/// correlation reaches beyond `lag`.
///
/// # Errors
/// [`FitError`] when lengths differ or the Jacobian is not of full rank.
pub fn newey_west(
    jacobian: &DMatrix<f64>,
    residuals: &[f64],
    lag: usize,
    small_sample: bool,
) -> Result<DMatrix<f64>, FitError> {
    let (n, p) = jacobian.shape();
    let bread = inverse_gram(jacobian, residuals)?;
    let scores = DMatrix::from_fn(p, n, |j, i| jacobian[(i, j)] * residuals[i]);
    let mut meat = DMatrix::zeros(p, p);
    for l in 0..=lag.min(n.saturating_sub(1)) {
        let weight = 1.0 - l as f64 / (lag as f64 + 1.0);
        let gamma = scores.columns(l, n - l) * scores.columns(0, n - l).transpose();
        if l == 0 {
            meat += gamma;
        } else {
            meat += (&gamma + gamma.transpose()) * weight;
        }
    }
    let factor = if small_sample && n > p { n as f64 / (n - p) as f64 } else { 1.0 };
    Ok(&bread * meat * &bread * factor)
}

/// Newey and West's (1994) rule of thumb for the Bartlett lag, floor(4 (n/100)^(2/9)).
pub fn automatic_lag(n: usize) -> usize {
    (4.0 * (n as f64 / 100.0).powf(2.0 / 9.0)).floor() as usize
}

/// Standardised long-run variance of a series about zero: sum of Bartlett-weighted autocovariances over the variance.
pub(super) fn long_run_ratio(series: &DVector<f64>, lag: usize) -> f64 {
    let n = series.len();
    let autocovariance = |l: usize| series.rows(l, n - l).dot(&series.rows(0, n - l));
    let sum: f64 = (1..=lag.min(n - 1)).map(|l| (1.0 - l as f64 / (lag as f64 + 1.0)) * autocovariance(l)).sum();
    1.0 + 2.0 * sum / autocovariance(0)
}
