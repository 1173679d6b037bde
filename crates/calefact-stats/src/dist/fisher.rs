//! Fisher's F distribution with any positive degrees of freedom, infinitely many below the line included.

use super::chi_squared::chi2_tails;
use crate::special::beta_regularized;

/// Upper tail, I_w(d2/2, d1/2) with w = d2 / (d1 x + d2) (Abramowitz & Stegun 26.6.2); d1 F is chi-squared when d2 is
/// infinite.
pub fn f_sf(x: f64, d1: f64, d2: f64) -> f64 {
    let sound = d1 > 0.0 && d1.is_finite() && d2 > 0.0;
    if x.is_nan() || !sound {
        return f64::NAN;
    }
    if x <= 0.0 {
        return 1.0;
    }
    if d2.is_infinite() {
        return chi2_tails(d1 * x, d1).1;
    }
    beta_regularized(0.5 * d2, 0.5 * d1, d2 / (d1 * x + d2))
}
