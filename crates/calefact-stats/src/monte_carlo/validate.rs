//! Comparing the first-order interval with the Monte Carlo one (JCGM 101:2008, clause 8).

use crate::estimate::Interval;
use libm::{log10, pow};

/// Numerical tolerance of a number u with `digits` significant digits (7.9.2): u = c 10^l with c an integer of that many
/// digits, delta = 10^l / 2.
pub(super) fn numerical_tolerance(u: f64, digits: u8) -> f64 {
    if u.is_nan() || u <= 0.0 {
        return 0.0;
    }
    let digits = f64::from(digits);
    let mut l = log10(u).floor() + 1.0 - digits;
    // 0.0996 to two digits is 0.10, not 0.100: rounding may carry.
    if (u / pow(10.0, l)).round() >= pow(10.0, digits) {
        l += 1.0;
    }
    0.5 * pow(10.0, l)
}

/// Whether the first-order interval agrees with the Monte Carlo interval to `digits` significant digits of the first-order
/// standard uncertainty `u` (8.1): both ends differ by at most delta.
pub fn validate(first_order: &Interval, monte_carlo: &Interval, u: f64, digits: u8) -> bool {
    let tolerance = numerical_tolerance(u, digits);
    let near = |a: f64, b: f64| (a - b).abs() <= tolerance;
    near(first_order.lower, monte_carlo.lower) && near(first_order.upper, monte_carlo.upper)
}
