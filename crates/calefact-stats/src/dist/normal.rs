//! The standard normal distribution.

use libm::{erf, erfc, exp, log};
use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// Distribution function of the standard normal, erfc(-x / sqrt 2) / 2 (Abramowitz & Stegun 26.2.29).
pub fn normal_cdf(x: f64) -> f64 {
    0.5 * erfc(-x * FRAC_1_SQRT_2)
}

/// Density of the standard normal.
pub(crate) fn normal_pdf(x: f64) -> f64 {
    exp(-0.5 * x * x) / (2.0 * PI).sqrt()
}

/// Quantile of the standard normal: Hastings' rational approximation (Abramowitz & Stegun 26.2.23, error below 4.5e-4),
/// then two steps of Halley's method, each of which triples the digits.
pub fn normal_quantile(p: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    let q = p.min(1.0 - p);
    if q == 0.0 {
        return if p < 0.5 { f64::NEG_INFINITY } else { f64::INFINITY };
    }
    let t = (-2.0 * log(q)).sqrt();
    let above = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let below = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    let mut x = above / below - t;
    for _ in 0..2 {
        // Near the middle the distance from 1/2 is compared, which keeps its digits.
        let excess = if q > 0.25 { 0.5 * erf(x * FRAC_1_SQRT_2) - (q - 0.5) } else { normal_cdf(x) - q };
        let u = excess / normal_pdf(x);
        x -= u / (1.0 + 0.5 * x * u);
    }
    if p < 0.5 { x } else { -x }
}
