//! Mean, standard deviation and its interval from independent values of equal weight.

use crate::dist::chi2_quantile;
use crate::estimate::Interval;
use serde::Serialize;

/// Scatter of at least two values.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Scatter {
    /// s = sqrt(sum (x - mean)^2 / (n - 1)), in the unit of the values.
    pub sd: f64,
    /// n - 1.
    pub dof: f64,
}

/// Number, mean and scatter of a group. One value has no scatter: it says nothing of how the next will differ.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Summary {
    /// Number of values, at least 1.
    pub n: usize,
    /// Arithmetic mean, in the unit of the values.
    pub mean: f64,
    /// Absent when there is only one value.
    pub scatter: Option<Scatter>,
}

impl Summary {
    /// Summary of `values` by the two-pass formula; `None` without values.
    pub fn from_values(values: &[f64]) -> Option<Self> {
        if values.is_empty() {
            return None;
        }
        let n = values.len() as f64;
        let first = values.iter().sum::<f64>() / n;
        let mean = first + values.iter().map(|x| x - first).sum::<f64>() / n;
        let squares: f64 = values.iter().map(|x| (x - mean) * (x - mean)).sum();
        Some(Self::from_parts(values.len(), mean, (squares / (n - 1.0)).sqrt()))
    }

    /// Summary from published figures; `sd` is ignored for n = 1.
    pub fn from_parts(n: usize, mean: f64, sd: f64) -> Self {
        let dof = n as f64 - 1.0;
        Self { n, mean, scatter: (n > 1).then_some(Scatter { sd, dof }) }
    }

    /// s / sqrt(n), standard uncertainty of the mean.
    pub(crate) fn std_error(&self) -> Option<f64> {
        self.scatter.map(|s| s.sd / (self.n as f64).sqrt())
    }

    /// Interval for the standard deviation: s sqrt(nu / chi2(1 - alpha/2; nu)) to s sqrt(nu / chi2(alpha/2; nu)).
    pub fn sd_interval(&self, confidence: f64) -> Option<Interval> {
        let Scatter { sd, dof } = self.scatter?;
        let bound = |p: f64| sd * (dof / chi2_quantile(p, dof)).sqrt();
        Some(Interval { lower: bound(0.5 + 0.5 * confidence), upper: bound(0.5 - 0.5 * confidence), confidence })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_value_has_no_scatter() {
        let one = Summary::from_values(&[3.0]).unwrap();
        assert_eq!((one.n, one.mean, one.scatter), (1, 3.0, None));
        assert!(one.sd_interval(0.95).is_none());
        assert!(Summary::from_values(&[]).is_none());
    }

    /// NIST/SEMATECH e-Handbook 1.3.5.8, GEAR data: s = 0.00628, n = 100, 95 % interval (0.00551, 0.00729).
    #[test]
    fn interval_of_a_standard_deviation() {
        let i = Summary::from_parts(100, 1.0, 0.006_278_904_9).sd_interval(0.95).unwrap();
        assert!((i.lower - 0.005_512_92).abs() < 1e-8 && (i.upper - 0.007_294_05).abs() < 1e-8);
    }

    /// NIST StRD NumAcc4: certified mean 10000000.2 and standard deviation 0.1, where one pass cancels to nonsense.
    #[test]
    fn two_passes_survive_cancellation() {
        let values: Vec<f64> = std::iter::once(10_000_000.2)
            .chain((0..1000).map(|i| if i % 2 == 0 { 10_000_000.1 } else { 10_000_000.3 }))
            .collect();
        let s = Summary::from_values(&values).unwrap();
        assert!((s.mean - 10_000_000.2).abs() < 1e-8);
        assert!((s.scatter.unwrap().sd - 0.1).abs() < 1e-8);
    }
}
