//! Quantiles of draws, and the spread of a forecast.

use crate::result::Spread;
use calefact_stats::Interval;

/// Quantile of sorted values at a probability: linear between the values, of which the i-th of n lies at i/(n + 1) (definition 6
/// of R. J. Hyndman and Y. Fan, 1996), so that an interval of few draws keeps its probability. Values may be infinite.
pub fn quantile(sorted: &[f64], probability: f64) -> f64 {
    let n = sorted.len();
    if n == 0 {
        return f64::NAN;
    }
    let place = (probability * (n + 1) as f64 - 1.0).clamp(0.0, (n - 1) as f64);
    let below = place.floor();
    let (low, part) = (sorted[below as usize], place - below);
    let high = sorted[(below as usize + 1).min(n - 1)];
    if part == 0.0 || low >= high { low } else { low + part * (high - low) }
}

/// Interval of draws at a level.
pub(super) fn interval(mut draws: Vec<f64>, level: f64) -> Interval {
    draws.sort_by(f64::total_cmp);
    let end = |probability| quantile(&draws, probability);
    Interval { lower: end(0.5 - 0.5 * level), upper: end(0.5 + 0.5 * level), confidence: level }
}

/// A value with the intervals of its draws; that of the next burn where there are any.
pub(super) fn spread(value: f64, mean: Vec<f64>, next: Vec<f64>, level: f64) -> Spread {
    let next = (!next.is_empty()).then(|| interval(next, level));
    Spread { value, mean: interval(mean, level), next }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of 39 values the 2.5 % point is the first and the 97.5 % point the last.
    #[test]
    fn ends_lie_at_their_share_of_one_more() {
        let values: Vec<f64> = (1..=39).map(f64::from).collect();
        assert!((quantile(&values, 0.025) - 1.0).abs() < 1e-12 && (quantile(&values, 0.975) - 39.0).abs() < 1e-12);
        assert!((quantile(&values, 0.5) - 20.0).abs() < 1e-12);
        assert!(quantile(&[1.0, f64::INFINITY], 0.6).is_infinite());
        assert!(quantile(&[], 0.5).is_nan());
    }
}
