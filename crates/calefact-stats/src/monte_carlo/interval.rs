//! Coverage intervals from sorted draws (JCGM 101:2008, 7.7).

use crate::estimate::Interval;

/// Number of draws the interval spans, q = p M rounded half up, at most M - 1.
fn span(draws: usize, confidence: f64) -> usize {
    ((confidence * draws as f64 + 0.5).floor() as usize).min(draws.saturating_sub(1))
}

fn at(sorted: &[f64], start: usize, confidence: f64) -> Interval {
    let get = |i: usize| sorted.get(i).copied().unwrap_or(f64::NAN);
    Interval { lower: get(start), upper: get(start + span(sorted.len(), confidence)), confidence }
}

/// Probabilistically symmetric interval (7.7.2): as many draws below it as above. `sorted` ascends; NaN ends if empty.
pub(super) fn symmetric(sorted: &[f64], confidence: f64) -> Interval {
    at(sorted, (sorted.len() - span(sorted.len(), confidence)) / 2, confidence)
}

/// Shortest interval (7.7.4): of all that span q draws, the first of least length. `sorted` ascends; NaN ends if empty.
pub(super) fn shortest(sorted: &[f64], confidence: f64) -> Interval {
    let q = span(sorted.len(), confidence);
    let length = |r: usize| sorted[r + q] - sorted[r];
    let start = (0..sorted.len().saturating_sub(q)).min_by(|a, b| length(*a).total_cmp(&length(*b))).unwrap_or(0);
    at(sorted, start, confidence)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ends(interval: Interval) -> (f64, f64) {
        (interval.lower, interval.upper)
    }

    /// JCGM 101:2008 7.7: of 10 draws a 50 % interval spans q = 5, symmetric from draw (10 - 5) / 2 = 2 (counted from 0); the
    /// shortest of the squares 0, 1, 4, ... 81 begins at 0.
    #[test]
    fn intervals_of_ten_draws() {
        let squares: Vec<f64> = (0..10).map(|i| f64::from(i * i)).collect();
        assert_eq!(ends(symmetric(&squares, 0.5)), (4.0, 49.0));
        assert_eq!(ends(shortest(&squares, 0.5)), (0.0, 25.0));
        let falling: Vec<f64> = squares.iter().rev().map(|x| -x).collect();
        assert_eq!(ends(shortest(&falling, 0.5)), (-25.0, 0.0));
    }

    /// q = 0.95 x 10 rounds up to 10 and is then cut to the 9 there are.
    #[test]
    fn few_draws_are_all_within() {
        let draws: Vec<f64> = (0..10).map(f64::from).collect();
        assert_eq!((ends(symmetric(&draws, 0.95)), ends(shortest(&draws, 0.95))), ((0.0, 9.0), (0.0, 9.0)));
        assert!(symmetric(&[], 0.95).lower.is_nan() && shortest(&[], 0.95).upper.is_nan());
    }
}
