//! Comparing the first-order interval with the Monte Carlo one (JCGM 101:2008, clause 8).

use crate::estimate::Interval;

/// Numerical tolerance of a number u with `digits` significant digits (7.9.2): u = c 10^l with c an integer of that many
/// digits, delta = 10^l / 2.
pub fn numerical_tolerance(u: f64, digits: u8) -> f64 {
    if u.is_nan() || u <= 0.0 {
        return 0.0;
    }
    let digits = i32::from(digits);
    let mut l = u.log10().floor() as i32 + 1 - digits;
    // 0.0996 to two digits is 0.10, not 0.100: rounding may carry.
    if (u / 10_f64.powi(l)).round() >= 10_f64.powi(digits) {
        l += 1;
    }
    0.5 * 10_f64.powi(l)
}

/// What the comparison says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Validation {
    /// Distance of the lower ends.
    pub low: f64,
    /// Distance of the upper ends.
    pub high: f64,
    /// The tolerance both must keep.
    pub tolerance: f64,
    /// Whether the first-order interval is validated.
    pub valid: bool,
}

/// Whether the first-order interval agrees with the Monte Carlo interval to `digits` significant digits of the first-order
/// standard uncertainty `u` (8.1): both distances at most delta.
pub fn validate(first_order: &Interval, monte_carlo: &Interval, u: f64, digits: u8) -> Validation {
    let low = (first_order.lower - monte_carlo.lower).abs();
    let high = (first_order.upper - monte_carlo.upper).abs();
    let tolerance = numerical_tolerance(u, digits);
    Validation { low, high, tolerance, valid: low <= tolerance && high <= tolerance }
}
