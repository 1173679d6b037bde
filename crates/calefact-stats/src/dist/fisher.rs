//! Fisher's F distribution with any positive degrees of freedom, infinite ones included.

use super::chi_squared::{chi2_cdf, chi2_quantile, chi2_sf};
use super::newton::Positive;
use super::positive;
use statrs::function::beta::{beta_reg, ln_beta};

/// Distribution function, I_z(d1/2, d2/2) with z = d1 x / (d1 x + d2) (Abramowitz and Stegun 26.6.2).
pub fn f_cdf(x: f64, d1: f64, d2: f64) -> f64 {
    tails(x, d1, d2).0
}

/// Upper tail, I_w(d2/2, d1/2) with w = d2 / (d1 x + d2).
pub fn f_sf(x: f64, d1: f64, d2: f64) -> f64 {
    tails(x, d1, d2).1
}

/// Lower and upper tail. With infinitely many degrees of freedom below the line, d1 F is chi-squared; above it, d2 / F.
fn tails(x: f64, d1: f64, d2: f64) -> (f64, f64) {
    if x.is_nan() || !positive(d1) || !positive(d2) {
        return (f64::NAN, f64::NAN);
    }
    if x <= 0.0 {
        return (0.0, 1.0);
    }
    if x.is_infinite() {
        return (1.0, 0.0);
    }
    match (d1.is_infinite(), d2.is_infinite()) {
        (true, true) => {
            if x < 1.0 {
                (0.0, 1.0)
            } else {
                (1.0, 0.0)
            }
        }
        (false, true) => (chi2_cdf(d1 * x, d1), chi2_sf(d1 * x, d1)),
        (true, false) => (chi2_sf(d2 / x, d2), chi2_cdf(d2 / x, d2)),
        (false, false) => {
            let (num, den) = (d1 * x, d1 * x + d2);
            (beta_reg(0.5 * d1, 0.5 * d2, num / den), beta_reg(0.5 * d2, 0.5 * d1, d2 / den))
        }
    }
}

fn pdf(x: f64, d1: f64, d2: f64) -> f64 {
    let (a, b) = (0.5 * d1, 0.5 * d2);
    let r = d1 / d2;
    (a * r.ln() + (a - 1.0) * x.ln() - (a + b) * (r * x).ln_1p() - ln_beta(a, b)).exp()
}

/// Quantile: started from a quotient of chi-squared quantiles, refined by Newton's method.
pub fn f_quantile(p: f64, d1: f64, d2: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) || !positive(d1) || !positive(d2) {
        return f64::NAN;
    }
    if p <= 0.0 {
        return 0.0;
    }
    if p >= 1.0 {
        return f64::INFINITY;
    }
    match (d1.is_infinite(), d2.is_infinite()) {
        (true, true) => 1.0,
        (false, true) => chi2_quantile(p, d1) / d1,
        (true, false) => d2 / chi2_quantile(1.0 - p, d2),
        (false, false) => {
            let dist = Positive { cdf: |x| f_cdf(x, d1, d2), sf: |x| f_sf(x, d1, d2), pdf: |x| pdf(x, d1, d2) };
            dist.refine(start(p, d1, d2), p)
        }
    }
}

/// Quotient of two chi-squared quantiles of opposite tails, each at the probability that splits the tail between them:
/// of the right order everywhere, which is all that Newton's method in logarithms asks.
fn start(p: f64, d1: f64, d2: f64) -> f64 {
    let upper = p > 0.5;
    let tail = if upper { 1.0 - p } else { p };
    // The side with fewer degrees of freedom carries the tail.
    let (p1, p2) = if d1 < d2 { (tail, 0.5) } else { (0.5, tail) };
    let (p1, p2) = if upper { (1.0 - p1, p2) } else { (p1, 1.0 - p2) };
    (chi2_quantile(p1, d1) / d1) / (chi2_quantile(p2, d2) / d2)
}
