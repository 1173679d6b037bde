//! A linear scale from data to the canvas, with round tick values.

use std::ops::RangeInclusive;

/// A linear scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Scale {
    /// Data range.
    pub(crate) domain: (f64, f64),
    /// Canvas range.
    pub(crate) range: (f64, f64),
}

impl Scale {
    /// A scale over at least the data given, with a little air; a range of no length is widened.
    pub(crate) fn around(values: impl Iterator<Item = f64>, air: f64, range: (f64, f64)) -> Self {
        let (mut lower, mut upper) = hull(values).unwrap_or((0.0, 1.0));
        if upper - lower <= 1e-9 * upper.abs().max(lower.abs()) {
            let half = (0.05 * upper.abs()).max(1e-6);
            (lower, upper) = (lower - half, upper + half);
        }
        let pad = air * (upper - lower);
        Self { domain: (lower - pad, upper + pad), range }
    }

    /// The same scale reaching from zero where the data are all positive and begin near it.
    pub(crate) fn with_zero(mut self) -> Self {
        self.domain.0 = self.domain.0.min(0.0);
        self
    }

    /// No part below zero, for data that cannot be negative.
    pub(crate) fn not_below_zero(mut self) -> Self {
        self.domain.0 = self.domain.0.max(0.0);
        self
    }

    /// Position on the canvas, kept within the range.
    pub(crate) fn at(&self, value: f64) -> f64 {
        let share = (value - self.domain.0) / (self.domain.1 - self.domain.0);
        self.range.0 + share.clamp(0.0, 1.0) * (self.range.1 - self.range.0)
    }

    /// Whether a value lies within the domain.
    pub(crate) fn holds(&self, value: f64) -> bool {
        (self.domain.0..=self.domain.1).contains(&value)
    }

    /// Round values within the domain, about `count` of them, with the decimal places that write them.
    pub(crate) fn ticks(&self, count: usize) -> (Vec<f64>, i32) {
        let raw = (self.domain.1 - self.domain.0) / count.max(1) as f64;
        let power = libm::log10(raw).floor();
        let unit = libm::pow(10.0, power);
        let step = [1.0, 2.0, 5.0, 10.0].into_iter().find(|m| m * unit >= raw * 0.999).unwrap_or(10.0) * unit;
        let first = (self.domain.0 / step - 1e-9).ceil() as i64;
        let last = (self.domain.1 / step + 1e-9).floor() as i64;
        let places = (-(libm::log10(step) + 1e-9).floor()).max(0.0) as i32;
        ((first..=last).take(50).map(|i| i as f64 * step).collect(), places)
    }
}

/// Values beyond these are no measurements, and their differences would overflow.
const DRAWN: RangeInclusive<f64> = -1e100..=1e100;

/// Smallest and largest value that can be drawn.
pub(crate) fn hull(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.filter(|v| DRAWN.contains(v)).fold(None, |hull, v| match hull {
        None => Some((v, v)),
        Some((a, b)) => Some((a.min(v), b.max(v))),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_within() {
        let scale = Scale { domain: (0.17, 0.34), range: (0.0, 100.0) };
        assert_eq!(scale.ticks(4).1, 2);
        let ticks: Vec<String> = scale.ticks(4).0.iter().map(|t| format!("{t:.2}")).collect();
        assert_eq!(ticks, ["0.20", "0.25", "0.30"]);
    }

    #[test]
    fn values_that_are_no_measurements_do_not_spoil_a_scale() {
        let scale = Scale::around([5.0, 9.0, f64::MAX, f64::NEG_INFINITY].into_iter(), 0.1, (0.0, 10.0));
        assert!(scale.domain.1 < 10.0 && (scale.at(f64::MAX) - 10.0).abs() < 1e-12);
        assert!(scale.ticks(4).0.iter().all(|t| t.is_finite()));
    }

    #[test]
    fn a_single_value_still_has_a_scale() {
        let scale = Scale::around([5.0, f64::NAN].into_iter(), 0.1, (0.0, 10.0));
        assert!(scale.at(5.0) > 4.9 && scale.at(5.0) < 5.1);
        assert!(scale.at(1e9) <= 10.0);
    }
}
