//! Local polynomials as weighted sums: the weights that turn the readings around a time into the value or the slope there.
//!
//! As a weighted sum an estimate has a variance for any scatter of the readings, and so has the difference of two estimates.

use super::noise::Noise;
use calefact_stats::linear;
use std::ops::Range;

/// Weights of consecutive readings.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Weights {
    first: usize,
    weights: Vec<f64>,
}

impl Weights {
    /// Those of the value at a time of a straight line through some readings. `None` where they are fewer than two.
    pub(crate) fn value(t: &[f64], rows: Range<usize>, at: f64) -> Option<Self> {
        Self::coefficient(t, rows, at, 1, 0).map(|(weights, _)| weights)
    }

    /// Those of the slope at a time of a parabola through some readings. `None` where they are fewer than three.
    pub(crate) fn slope(t: &[f64], rows: Range<usize>, at: f64) -> Option<Self> {
        let (mut slope, scale) = Self::coefficient(t, rows, at, 2, 1)?;
        slope.weights.iter_mut().for_each(|w| *w /= scale);
        Some(slope)
    }

    /// Row `power` of (X'X)^-1 X' for a polynomial in (t - at) over the span of the readings, and that span.
    fn coefficient(t: &[f64], rows: Range<usize>, at: f64, degree: usize, power: usize) -> Option<(Self, f64)> {
        let times = t.get(rows.clone()).filter(|times| times.len() > degree)?;
        let scale = times[times.len() - 1] - times[0];
        let x: Vec<f64> = times.iter().map(|t| (t - at) / scale).collect();
        let design = linear::polynomial(&x, degree);
        let inverse = (design.transpose() * &design).try_inverse()?;
        let weights: Vec<f64> = (inverse.row(power) * design.transpose()).iter().copied().collect();
        weights.iter().all(|w| w.is_finite()).then_some((Self { first: rows.start, weights }, scale))
    }

    /// The weighted sum of the readings.
    pub(crate) fn apply(&self, v: &[f64]) -> f64 {
        self.weights.iter().zip(&v[self.first..]).map(|(w, v)| w * v).sum()
    }

    /// Standard uncertainty of the sum from the scatter of the readings.
    pub(crate) fn std_uncertainty(&self, noise: &Noise) -> f64 {
        noise.variance(&self.weights).sqrt()
    }

    /// The weights of this sum less those of another one.
    pub(crate) fn less(&self, other: &Self) -> Self {
        let first = self.first.min(other.first);
        let end = (self.first + self.weights.len()).max(other.first + other.weights.len());
        let mut weights = vec![0.0; end - first];
        for (held, sign) in [(self, 1.0), (other, -1.0)] {
            let own = &mut weights[held.first - first..];
            own.iter_mut().zip(&held.weights).for_each(|(sum, w)| *sum += sign * w);
        }
        Self { first, weights }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const T: [f64; 7] = [0.0, 10.0, 25.0, 30.0, 42.0, 55.0, 60.0];

    #[test]
    fn polynomials_are_followed_exactly() {
        let parabola = T.map(|t| 3.0 + 0.2 * t - 0.01 * t * t);
        let slope = Weights::slope(&T, 1..7, 33.0).expect("six readings");
        assert!((slope.apply(&parabola) - (0.2 - 0.02 * 33.0)).abs() < 1e-12);
        let value = Weights::value(&T, 2..6, 40.0).expect("four readings");
        assert!((value.apply(&T.map(|t| 1.0 - 0.5 * t)) + 19.0).abs() < 1e-12);
        assert!(Weights::slope(&T, 2..4, 30.0).is_none());
    }

    /// Slope of a line through independent readings: s / sqrt(sum (t - mean)^2); a parabola centred on the time has the same.
    #[test]
    fn scatter_of_a_slope_is_the_textbooks() {
        let t = [-20.0, -10.0, 0.0, 10.0, 20.0];
        let slope = Weights::slope(&t, 0..5, 0.0).expect("five readings");
        let u = slope.std_uncertainty(&Noise::known(0.3));
        assert!((u - 0.3 / 1000.0_f64.sqrt()).abs() < 1e-12, "{u}");
        let zero = slope.less(&slope).std_uncertainty(&Noise::known(0.3));
        assert!(zero.abs() < 1e-15);
    }

    #[test]
    fn a_difference_spans_both() {
        let (wide, narrow) = (Weights::slope(&T, 0..7, 30.0), Weights::slope(&T, 2..5, 30.0));
        let (wide, narrow) = (wide.expect("seven"), narrow.expect("three"));
        let v = T.map(|t| libm::sin(0.1 * t));
        assert!((narrow.less(&wide).apply(&v) - (narrow.apply(&v) - wide.apply(&v))).abs() < 1e-12);
    }
}
