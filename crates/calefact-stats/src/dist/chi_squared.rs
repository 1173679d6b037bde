//! The chi-squared distribution with any positive degrees of freedom.

use super::newton::Positive;
use super::normal_quantile;
use super::positive;
use statrs::function::gamma::{gamma_lr, gamma_ur, ln_gamma};

/// Distribution function, P(k/2, x/2) with the regularised lower incomplete gamma function (Abramowitz and Stegun
/// 26.4.19).
pub fn chi2_cdf(x: f64, dof: f64) -> f64 {
    if x.is_nan() || !positive(dof) {
        return f64::NAN;
    }
    if x <= 0.0 { 0.0 } else { gamma_lr(0.5 * dof, 0.5 * x) }
}

/// Upper tail, Q(k/2, x/2).
pub fn chi2_sf(x: f64, dof: f64) -> f64 {
    if x.is_nan() || !positive(dof) {
        return f64::NAN;
    }
    if x <= 0.0 { 1.0 } else { gamma_ur(0.5 * dof, 0.5 * x) }
}

fn pdf(x: f64, dof: f64) -> f64 {
    let k = 0.5 * dof;
    ((k - 1.0) * (0.5 * x).ln() - 0.5 * x - ln_gamma(k)).exp() * 0.5
}

/// Quantile: Wilson and Hilferty's cube (1931; Abramowitz and Stegun 26.4.17), or the first term of the series near
/// zero, refined by Newton's method.
pub fn chi2_quantile(p: f64, dof: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) || !positive(dof) || dof.is_infinite() {
        return f64::NAN;
    }
    if p <= 0.0 {
        return 0.0;
    }
    if p >= 1.0 {
        return f64::INFINITY;
    }
    let h = 2.0 / (9.0 * dof);
    let cube = 1.0 - h + normal_quantile(p) * h.sqrt();
    let k = 0.5 * dof;
    let series = 2.0 * ((p.ln() + k.ln() + ln_gamma(k)) / k).exp();
    let start = if cube > 0.3 { dof * cube.powi(3) } else { series };
    let tails = Positive { cdf: |x| chi2_cdf(x, dof), sf: |x| chi2_sf(x, dof), pdf: |x| pdf(x, dof) };
    tails.refine(start.max(f64::MIN_POSITIVE), p)
}
