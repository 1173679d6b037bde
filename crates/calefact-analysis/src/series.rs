//! The tank curve of a trial over its window: times, tank and air temperatures without gaps, and their integrals.
//!
//! Blank tank cells are left out (they carry no reading); blank air cells are filled by straight lines between the air
//! readings beside them. Nothing is smoothed here.

use calefact_data::{Channel, Readings};
use std::ops::Range;

/// Tank and air temperature by time. The three columns have the same length.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Series {
    /// Elapsed time, s.
    pub(crate) t: Vec<f64>,
    /// Tank temperature, degC.
    pub(crate) tank: Vec<f64>,
    /// Air temperature, degC; empty when unknown.
    pub(crate) air: Vec<f64>,
}

impl Series {
    /// The series of a log; `air` from the log, or constant from the register, or empty.
    pub(crate) fn from_readings(readings: &Readings, register_air: Option<f64>) -> Self {
        let Some(tank) = readings.channel(Channel::Tank) else { return Self::default() };
        let (t, tank) = known(&readings.elapsed_s, tank.iter().copied());
        let air = match readings.channel(Channel::Ambient).map(|a| known(&readings.elapsed_s, a.iter().copied())) {
            Some((ta, va)) if !ta.is_empty() => t.iter().map(|&x| interpolate(&ta, &va, x)).collect(),
            _ => register_air.map_or_else(Vec::new, |a| vec![a; t.len()]),
        };
        Self { t, tank, air }
    }

    /// Number of tank readings.
    pub(crate) fn len(&self) -> usize {
        self.t.len()
    }

    /// The part between two times, with interpolated end points.
    #[must_use]
    pub(crate) fn between(&self, start: f64, end: f64) -> Self {
        let has_air = !self.air.is_empty();
        let inner = self.inner(start, end);
        let cut = |v: &[f64]| {
            let ends = [start, end].map(|at| interpolate(&self.t, v, at));
            [&ends[..1], &v[inner.clone()], &ends[1..]].concat()
        };
        Self {
            t: [&[start], &self.t[inner.clone()], &[end]].concat(),
            tank: cut(&self.tank),
            air: if has_air { cut(&self.air) } else { Vec::new() },
        }
    }

    /// Rows between two times, the readings at these times not among them.
    pub(crate) fn inner(&self, start: f64, end: f64) -> Range<usize> {
        let from = self.t.partition_point(|&t| t <= start);
        from..self.t.partition_point(|&t| t < end).max(from)
    }

    /// The readings whose value is finite.
    #[must_use]
    pub(crate) fn finite(&self) -> Self {
        let (t, tank) = known(&self.t, self.tank.iter().copied());
        Self { t, tank, air: Vec::new() }
    }

    /// Time from `from` on at which the tank first reaches `level` going up, linearly interpolated.
    pub(crate) fn first_rise_through(&self, level: f64, from: f64) -> Option<f64> {
        let first = self.t.iter().position(|&t| t >= from)?;
        (first..self.len().saturating_sub(1))
            .find(|&i| self.tank[i] <= level && self.tank[i + 1] >= level && self.tank[i] < self.tank[i + 1])
            .map(|i| cross(self.t[i], self.tank[i], self.t[i + 1], self.tank[i + 1], level))
    }

    /// Times at which the tank first rises through each multiple of `step` K, as (degC, s).
    pub(crate) fn rises(&self, step: f64) -> Vec<(f64, f64)> {
        let (low, high) = self.tank.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), t| (l.min(*t), h.max(*t)));
        let (mut from, mut out) = (f64::NEG_INFINITY, Vec::new());
        let mut level = (low / step).ceil() * step;
        while level <= high {
            if let Some(at) = self.first_rise_through(level, from) {
                out.push((level, at));
                from = self.t[self.t.partition_point(|&t| t <= at).saturating_sub(1)];
            }
            level += step;
        }
        out
    }

    /// Running integral of tank minus air, K s, zero at the first reading. Between readings above the air of which the second
    /// is the lower one the excess is taken to fall exponentially (logarithmic mean), as a cooling body's does; else to change
    /// linearly, as under a steady fire. NaN after the first reading where no air temperature is known.
    pub(crate) fn excess_integral(&self) -> Vec<f64> {
        running(&self.t, &self.excess(), mean_excess)
    }

    /// The last value of it; NaN without readings.
    pub(crate) fn excess_total(&self) -> f64 {
        total(&self.t, &self.excess(), mean_excess)
    }

    fn excess(&self) -> Vec<f64> {
        let air = self.air.iter().copied().chain(std::iter::repeat(f64::NAN));
        self.tank.iter().zip(air).map(|(t, a)| t - a).collect()
    }

    /// Running integral of the tank temperature, degC s, by straight lines.
    pub(crate) fn tank_integral(&self) -> Vec<f64> {
        running(&self.t, &self.tank, f64::midpoint)
    }

    /// The last value of it; NaN without readings.
    pub(crate) fn tank_total(&self) -> f64 {
        total(&self.t, &self.tank, f64::midpoint)
    }

    /// Sum of the tank's steps from reading to reading, whichever way, times the time they took, K s.
    pub(crate) fn steps_by_time(&self) -> f64 {
        total(&self.t, &self.tank, |a, b| (b - a).abs())
    }

    /// Integral of the air temperature, degC s, by straight lines; NaN where it is not known.
    pub(crate) fn air_total(&self) -> f64 {
        total(&self.t, &self.air, f64::midpoint)
    }
}

/// Rows of sorted times that lie between two, both included.
pub(crate) fn between(t: &[f64], from: f64, to: f64) -> Range<usize> {
    let start = t.partition_point(|&t| t < from);
    start..t.partition_point(|&t| t <= to).max(start)
}

/// Times and values of the finite cells.
pub(crate) fn known(t: &[f64], values: impl IntoIterator<Item = f64>) -> (Vec<f64>, Vec<f64>) {
    let (mut times, mut known) = (Vec::with_capacity(t.len()), Vec::with_capacity(t.len()));
    for (t, value) in t.iter().zip(values).filter(|(_, value)| value.is_finite()) {
        times.push(*t);
        known.push(value);
    }
    (times, known)
}

/// Time at which the straight line through two points passes `level`.
fn cross(t0: f64, v0: f64, t1: f64, v1: f64, level: f64) -> f64 {
    t0 + (t1 - t0) * (level - v0) / (v1 - v0)
}

/// First row of sorted times that lies after `at`: where it would be in an even log, and a search only where the log is not
/// even.
pub(crate) fn after(t: &[f64], at: f64) -> usize {
    if let [first, .., last] = t {
        let steps = t.len() - 1;
        let guess = (((at - first) / (last - first) * steps as f64) as usize + 1).min(steps);
        if t[guess - 1] <= at && at < t[guess] {
            return guess;
        }
    }
    t.partition_point(|&x| x <= at)
}

/// Linear interpolation in a sorted table, constant beyond its ends.
pub(crate) fn interpolate(t: &[f64], v: &[f64], at: f64) -> f64 {
    let (Some(&first), Some(&last)) = (v.first(), v.last()) else { return f64::NAN };
    match after(t, at) {
        0 => first,
        i if i >= t.len() => last,
        i => v[i - 1] + (v[i] - v[i - 1]) * (at - t[i - 1]) / (t[i] - t[i - 1]),
    }
}

/// Mean excess between two readings.
fn mean_excess(a: f64, b: f64) -> f64 {
    if b < a { log_mean(a, b) } else { f64::midpoint(a, b) }
}

/// Logarithmic mean of two positive excesses, arithmetic mean otherwise. With z = (b - a)/(b + a), ln(b/a) = 2 artanh z; its
/// series needs no logarithm for neighbours and loses no digits where they are nearly equal.
fn log_mean(a: f64, b: f64) -> f64 {
    let middle = 0.5 * (a + b);
    if a <= 0.0 || b <= 0.0 {
        return middle;
    }
    let z = (b - a) / (b + a);
    let z2 = z * z;
    if z2 > 1e-3 {
        return (b - a) / libm::log(b / a);
    }
    middle / (1.0 + z2 * (1.0 / 3.0 + z2 * (1.0 / 5.0 + z2 * (1.0 / 7.0 + z2 / 9.0))))
}

/// Running integral with a rule for the mean of an interval.
pub(crate) fn running(t: &[f64], v: &[f64], mean: impl Fn(f64, f64) -> f64) -> Vec<f64> {
    let mut sum = 0.0;
    let mut out = Vec::with_capacity(t.len());
    out.extend(v.first().map(|_| sum));
    out.extend(pieces(t, v, mean).map(|piece| {
        sum += piece;
        sum
    }));
    out
}

/// The integral over all; NaN without values.
fn total(t: &[f64], v: &[f64], mean: impl Fn(f64, f64) -> f64) -> f64 {
    if v.is_empty() { f64::NAN } else { pieces(t, v, mean).fold(0.0, |sum, piece| sum + piece) }
}

/// The integral from each value to the next.
fn pieces(t: &[f64], v: &[f64], mean: impl Fn(f64, f64) -> f64) -> impl Iterator<Item = f64> {
    t.windows(2).zip(v.windows(2)).map(move |(t, v)| (t[1] - t[0]) * mean(v[0], v[1]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cooling_integral_is_exact_for_an_exponential() {
        // Closed form: integral of x0 exp(-t/tau) over 12 h with tau = 77.5185 h.
        let tau = 279_066.67;
        let t = vec![0.0, 43_200.0];
        let tank = vec![60.0, 15.0 + 45.0 * libm::exp(-43_200.0 / tau)];
        let series = Series { t, tank, air: vec![15.0; 2] };
        let exact = 45.0 * tau * (1.0 - libm::exp(-43_200.0 / tau));
        assert!((series.excess_integral()[1] / exact - 1.0).abs() < 1e-12);
    }

    /// A tank that was filled at the air's temperature and heated: the middle of both ends, whichever side of the air it began.
    #[test]
    fn a_heated_tank_is_not_taken_to_cool() {
        for start in [-0.1, 0.0, 0.1] {
            let series = Series { t: vec![0.0, 100.0], tank: vec![start, 50.0], air: vec![0.0; 2] };
            assert!((series.excess_total() - 50.0 * (50.0 + start)).abs() < 1e-9, "{start}");
        }
    }

    /// Closed form (b - a)/ln(b/a), the logarithm to full precision by ln(1 + x) on either side of the series' reach.
    #[test]
    fn logarithmic_mean_is_exact_on_both_sides_of_its_series() {
        for ratio in [1.0 + 1e-12, 1.0 + 1e-5, 1.01, 1.064, 1.066, 1.5, 0.94] {
            let (a, b): (f64, f64) = (20.0, 20.0 * ratio);
            let exact = (b - a) / libm::log1p((b - a) / a);
            assert!((log_mean(a, b) / exact - 1.0).abs() < 1e-15, "{ratio}");
        }
        assert!((log_mean(3.0, 3.0) - 3.0).abs() < 1e-15 && (log_mean(-1.0, 3.0) - 1.0).abs() < 1e-15);
    }

    #[test]
    fn the_row_after_a_time_is_found_in_even_and_uneven_logs() {
        for t in [vec![0.0, 10.0, 20.0, 30.0], vec![0.0, 1.0, 2.0, 30.0], vec![5.0], vec![]] {
            for at in [-1.0, 0.0, 0.5, 1.0, 2.5, 10.0, 29.9, 30.0, 31.0] {
                assert_eq!(after(&t, at), t.iter().filter(|x| **x <= at).count(), "{t:?} {at}");
            }
        }
    }

    #[test]
    fn crossing_is_interpolated() {
        let series = Series { t: vec![0.0, 10.0, 20.0], tank: vec![20.0, 29.0, 31.0], air: vec![] };
        assert_eq!(series.first_rise_through(30.0, 0.0), Some(15.0));
        assert_eq!(series.first_rise_through(20.0, 0.0), Some(0.0));
        assert_eq!(series.first_rise_through(40.0, 0.0), None);
    }
}
