//! Distribution function of the noncentral t distribution.

use super::normal::normal_cdf;
use super::student::t_cdf;
use crate::special::{beta_regularized, ln_beta};
use libm::{exp, lgamma, log, log1p};
use std::f64::consts::FRAC_1_SQRT_2;

/// P(T <= t) for T = (Z + delta) / sqrt(chi2_nu / nu).
///
/// For t >= 0 (Benton & Krishnamoorthy 2003, Comput. Stat. Data Anal. 43:249, eq. 2):
/// Phi(-delta) + 1/2 sum over i of [P_i I_x(i + 1/2, nu/2) + Q_i I_x(i + 1, nu/2)], x = t^2 / (nu + t^2),
/// with lambda = delta^2 / 2, P_i = e^-lambda lambda^i / i!, Q_i = delta / sqrt(2) e^-lambda lambda^i / Gamma(i + 3/2).
/// For t < 0, F(t; delta) = 1 - F(-t; -delta).
/// Absolute error about 1e-12 for |delta| below 35 (that of the logarithm of the gamma function); beyond 1e6 degrees of freedom the normal limit is used.
pub fn noncentral_t_cdf(t: f64, dof: f64, delta: f64) -> f64 {
    if t.is_nan() || delta.is_nan() || dof.is_nan() || dof <= 0.0 {
        return f64::NAN;
    }
    if t.is_infinite() {
        return if t > 0.0 { 1.0 } else { 0.0 };
    }
    if delta == 0.0 {
        return t_cdf(t, dof);
    }
    if dof > 1e6 {
        return normal_cdf(t - delta);
    }
    if t < 0.0 {
        return 1.0 - noncentral_t_cdf(-t, dof, -delta);
    }
    (normal_cdf(-delta) + 0.5 * series(t, dof, delta)).clamp(0.0, 1.0)
}

/// The infinite sum, its even and its odd terms.
fn series(t: f64, dof: f64, delta: f64) -> f64 {
    let x = 1.0 / (1.0 + dof / (t * t));
    if x == 0.0 {
        return 0.0;
    }
    let lambda = 0.5 * delta * delta;
    half_series(0.5, x, dof, lambda) + delta * FRAC_1_SQRT_2 * half_series(1.0, x, dof, lambda)
}

/// Weights below this do not count.
const LEAST: f64 = 1e-18;

/// The sum over i of w_i I_x(a, b), a = i + `first`, b = nu / 2, w_i = e^-lambda lambda^i / Gamma(a + 1/2).
///
/// Downwards from the last index that counts, since I_x(a, b) = I_x(a + 1, b) + x^a (1 - x)^b / (a B(a, b)) then adds positive terms
/// (Abramowitz & Stegun 26.5.16).
fn half_series(first: f64, x: f64, dof: f64, lambda: f64) -> f64 {
    let b = 0.5 * dof;
    let mut i = last_index(first, x, lambda);
    let mut weight = weight(i, first, lambda);
    let mut beta = beta_regularized(i + first, b, x);
    let mut step = beta_step(i + first, b, x);
    let mut sum = 0.0;
    loop {
        sum += weight * beta;
        if i < 1.0 || (weight < LEAST && i < lambda) {
            return sum;
        }
        let a = i + first;
        step *= a / (x * (a + b - 1.0));
        beta += step;
        weight *= (a - 0.5) / lambda;
        i -= 1.0;
    }
}

/// The index whose weight, or whose power of x, is so small that those after it do not count.
fn last_index(first: f64, x: f64, lambda: f64) -> f64 {
    let smallest_power = (600.0 / log(x).abs()).floor();
    let mut i = lambda.floor().min(smallest_power);
    let mut weight = weight(i, first, lambda);
    while weight >= LEAST && i < smallest_power {
        weight *= lambda / (i + first + 0.5);
        i += 1.0;
    }
    i
}

fn weight(i: f64, first: f64, lambda: f64) -> f64 {
    exp(i * log(lambda) - lambda - lgamma(i + first + 0.5))
}

/// x^a (1 - x)^b / (a B(a, b)).
fn beta_step(a: f64, b: f64, x: f64) -> f64 {
    exp(a * log(x) + b * log1p(-x) - ln_beta(a, b)) / a
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zero_shift_is_student_and_reflection_holds() {
        assert!((noncentral_t_cdf(1.3, 4.0, 1e-9) - t_cdf(1.3, 4.0)).abs() < 1e-9);
        let sum = noncentral_t_cdf(-1.1, 3.0, 0.7) + noncentral_t_cdf(1.1, 3.0, -0.7);
        assert!((sum - 1.0).abs() < 1e-14);
    }

    /// The recurrence against each term by itself.
    #[test]
    fn the_sum_is_that_of_its_terms() {
        for (t, dof, delta) in [
            (0.3, 2.5, 0.1),
            (2.1, 7.0, 1.7),
            (9.0, 3.0, 6.0),
            (1e-3, 11.0, 4.0),
            (40.0, 900.0, 33.0),
            (30.0, 5.0, 34.0),
        ] {
            let (x, lambda) = (1.0 / (1.0 + dof / (t * t)), 0.5 * delta * delta);
            for first in [0.5, 1.0] {
                let term =
                    |i: u32| weight(f64::from(i), first, lambda) * beta_regularized(f64::from(i) + first, 0.5 * dof, x);
                let sum: f64 = (0..2000).map(term).sum();
                assert!((half_series(first, x, dof, lambda) - sum).abs() < 2e-12, "{t} {dof} {delta} {sum}");
            }
        }
    }

    #[test]
    fn ends_of_the_line() {
        assert!((noncentral_t_cdf(f64::INFINITY, 0.002, 1.0) - 1.0).abs() < 1e-15);
        assert!((noncentral_t_cdf(1e200, 3.0, 1.0) - 1.0).abs() < 1e-12);
        assert!(noncentral_t_cdf(1.0, 0.0, 1.0).is_nan());
    }

    /// With one degree of freedom P(T <= 0) = Phi(-delta) for any delta; exact from the definition.
    #[test]
    fn at_zero_only_the_sign_of_the_numerator_counts() {
        assert!((noncentral_t_cdf(0.0, 1.0, 0.5) - normal_cdf(-0.5)).abs() < 1e-15);
    }

    /// Exact one-sided tolerance factors are quantiles of noncentral t: k1 = t(0.95; n - 1, z_.95 sqrt n) / sqrt n, 5.14387
    /// for n = 4 and 2.91096 for n = 10 (Hahn & Meeker, Statistical Intervals, recomputed; 95 % content, 95 % confidence).
    #[test]
    fn tolerance_factors_are_its_quantiles() {
        for (n, k1) in [(4.0f64, 5.143_87), (10.0, 2.910_96)] {
            let p = noncentral_t_cdf(k1 * n.sqrt(), n - 1.0, 1.644_853_626_951_472 * n.sqrt());
            assert!((p - 0.95).abs() < 1e-6, "{n} {p}");
        }
    }
}
