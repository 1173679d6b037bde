//! Student's t distribution with any positive degrees of freedom, infinite ones included.

use super::normal::{normal_cdf, normal_pdf, normal_quantile};
use crate::special::{beta_regularized, ln_beta};
use libm::{exp, log, log1p};

/// Above this the Cornish-Fisher expansion below is exact to double precision for |z| up to about 8.
const MANY: f64 = 1000.0;

/// A Newton step this small leaves an error of its square: below rounding.
const LAST_STEP: f64 = 1e-8;

/// Distribution function of Student's t; for x <= 0 it is I_w(v/2, 1/2)/2 with w = v/(v + x^2) (Abramowitz & Stegun
/// 26.7.1).
pub fn t_cdf(x: f64, dof: f64) -> f64 {
    if x.is_nan() || !is_positive(dof) {
        return f64::NAN;
    }
    if x > 0.0 { 1.0 - tail(x, dof) } else { tail(-x, dof) }
}

/// Whether degrees of freedom are a positive number, infinity included; false for NaN.
fn is_positive(dof: f64) -> bool {
    dof > 0.0
}

/// Quantile of Student's t.
pub fn t_quantile(p: f64, dof: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) || !is_positive(dof) {
        return f64::NAN;
    }
    if p > 0.5 { upper(1.0 - p, p - 0.5, dof) } else { -upper(p, 0.5 - p, dof) }
}

/// Upper tail for x >= 0.
fn tail(x: f64, dof: f64) -> f64 {
    if x.is_infinite() {
        return 0.0;
    }
    if dof.is_infinite() {
        return normal_cdf(-x);
    }
    if dof > MANY && x < 8.0 {
        return normal_cdf(-normal_equivalent(x, dof));
    }
    let x2 = x * x;
    if x2 < dof.min(3.0) { 0.5 - central(x, dof) } else { 0.5 * beta_regularized(0.5 * dof, 0.5, dof / (dof + x2)) }
}

/// P(0 < T < x), without the cancellation of 1/2 minus a tail.
fn central(x: f64, dof: f64) -> f64 {
    0.5 * beta_regularized(0.5, 0.5 * dof, x * x / (dof + x * x))
}

fn pdf(x: f64, dof: f64) -> f64 {
    exp(-0.5 * (dof + 1.0) * log1p(x * x / dof) - ln_beta(0.5, 0.5 * dof)) / dof.sqrt()
}

/// The x >= 0 with upper tail `q`, which lies `middle` = 1/2 - q from the centre.
fn upper(q: f64, middle: f64, dof: f64) -> f64 {
    if q == 0.0 {
        return f64::INFINITY;
    }
    let z = -normal_quantile(q);
    if dof.is_infinite() {
        return z;
    }
    if dof > MANY && z < 7.0 {
        return expansion(z, dof);
    }
    if q > 0.25 { from_centre(middle, dof) } else { from_tail(q, dof) }
}

/// Newton's method from zero: the distribution function is concave there, so the steps only grow towards the root.
fn from_centre(middle: f64, dof: f64) -> f64 {
    let mut x = 0.0_f64;
    for _ in 0..100 {
        let step = (middle - central(x, dof)) / pdf(x, dof);
        x += step;
        if step.abs() <= LAST_STEP * x {
            break;
        }
    }
    x
}

/// Newton's method on ln q against ln x, started on the tail's asymptote, which lies to the right of the root.
fn from_tail(q: f64, dof: f64) -> f64 {
    let ln_c = (0.5 * dof - 1.0) * log(dof) - ln_beta(0.5, 0.5 * dof);
    let asymptote = (ln_c - log(q)) / dof;
    // With many degrees of freedom the asymptote is far away; the expansion is near.
    let mut ln_x = if dof > 3.0 { log(expansion(-normal_quantile(q), dof)) } else { asymptote };
    for _ in 0..100 {
        let x = exp(ln_x);
        let sf = tail(x, dof);
        let step = (log(sf / q) * sf / (x * pdf(x, dof))).clamp(-2.0, 2.0);
        if !step.is_finite() {
            return x;
        }
        ln_x += step;
        if step.abs() < LAST_STEP {
            break;
        }
    }
    exp(ln_x)
}

/// Cornish-Fisher expansion of the t quantile about the normal quantile `z` (Abramowitz and Stegun 26.7.5).
fn expansion(z: f64, dof: f64) -> f64 {
    let (z2, r) = (z * z, 1.0 / dof);
    let g1 = (z2 + 1.0) / 4.0;
    let g2 = ((5.0 * z2 + 16.0) * z2 + 3.0) / 96.0;
    let g3 = (((3.0 * z2 + 19.0) * z2 + 17.0) * z2 - 15.0) / 384.0;
    let g4 = ((((79.0 * z2 + 776.0) * z2 + 1482.0) * z2 - 1920.0) * z2 - 945.0) / 92_160.0;
    z * (1.0 + r * (g1 + r * (g2 + r * (g3 + r * g4))))
}

/// The normal z whose expansion is x: the expansion inverted by Newton's method.
fn normal_equivalent(x: f64, dof: f64) -> f64 {
    let mut z = x;
    for _ in 0..50 {
        // dx/dz = phi(z) / f(x) where f is the density of t; at the root the two curves share their slope.
        let slope = normal_pdf(z) / pdf(x, dof);
        let step = (x - expansion(z, dof)) / slope.clamp(0.5, 20.0);
        z += step;
        if step.abs() <= 2.0 * f64::EPSILON * z.abs() {
            break;
        }
    }
    z
}
