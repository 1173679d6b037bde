//! The chi-squared distribution with any positive degrees of freedom.

use super::normal::normal_quantile;
use crate::special::gamma_regularized;
use libm::{exp, lgamma, log};

/// Lower and upper tail, P(k/2, x/2) and Q(k/2, x/2) with the regularised incomplete gamma functions (Abramowitz & Stegun
/// 26.4.19).
pub(super) fn chi2_tails(x: f64, dof: f64) -> (f64, f64) {
    gamma_regularized(0.5 * dof, 0.5 * x)
}

fn pdf(x: f64, dof: f64) -> f64 {
    let k = 0.5 * dof;
    0.5 * exp((k - 1.0) * log(0.5 * x) - 0.5 * x - lgamma(k))
}

/// Quantile: Wilson and Hilferty's cube (1931; Abramowitz & Stegun 26.4.17), or the first term of the series near zero,
/// refined by Newton's method.
pub fn chi2_quantile(p: f64, dof: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) || dof.is_nan() || dof <= 0.0 || dof.is_infinite() {
        return f64::NAN;
    }
    if p <= 0.0 {
        return 0.0;
    }
    if p >= 1.0 {
        return f64::INFINITY;
    }
    let h = 2.0 / (9.0 * dof);
    let root = 1.0 - h + normal_quantile(p) * h.sqrt();
    let k = 0.5 * dof;
    let series = 2.0 * exp((log(p) + log(k) + lgamma(k)) / k);
    let start = if root > 0.3 { dof * root * root * root } else { series };
    refine(start.max(f64::MIN_POSITIVE), p, dof)
}

/// Newton's method on the logarithms of the smaller tail and of x, in which tails are nearly straight.
fn refine(start: f64, p: f64, dof: f64) -> f64 {
    let mut x = start;
    for _ in 0..60 {
        let (lower, upper) = chi2_tails(x, dof);
        let (tail, wanted, sign) = if p <= 0.5 { (lower, p, 1.0) } else { (upper, 1.0 - p, -1.0) };
        let slope = sign * x * pdf(x, dof) / tail;
        let step = (log(wanted / tail) / slope).clamp(-1.0, 1.0);
        if !step.is_finite() {
            break;
        }
        x *= exp(step);
        // The error left is the square of the last step: below rounding.
        if step.abs() < 1e-8 {
            break;
        }
    }
    x
}
