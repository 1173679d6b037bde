//! Coverage intervals from draws (JCGM 101:2008, 7.7).
//!
//! An interval that spans q of M draws begins at one of the lowest M - q and ends at one of the highest: only these need to be in
//! order.

use crate::estimate::Interval;

/// Number of draws the interval spans, q = p M rounded half up, at most M - 1.
fn span(draws: usize, confidence: f64) -> usize {
    ((confidence * draws as f64 + 0.5).floor() as usize).min(draws.saturating_sub(1))
}

/// Puts the draws in order at which an interval can end.
pub(super) fn sort_tails(draws: &mut [f64], confidence: f64) {
    let mut keys: Vec<i64> = draws.iter().copied().map(key).collect();
    sort_key_tails(&mut keys, span(draws.len(), confidence));
    draws.iter_mut().zip(keys).for_each(|(draw, key)| *draw = of_key(key));
}

fn sort_key_tails(keys: &mut [i64], q: usize) {
    let n = keys.len();
    let tail = n - q;
    if 2 * tail >= n {
        keys.sort_unstable();
        return;
    }
    keys.select_nth_unstable(tail);
    let (low, rest) = keys.split_at_mut(tail);
    rest.select_nth_unstable(q - tail);
    low.sort_unstable();
    rest[q - tail..].sort_unstable();
}

/// A whole number in the order of [`f64::total_cmp`], which is compared faster.
const fn key(draw: f64) -> i64 {
    flip(draw.to_bits().cast_signed())
}

const fn of_key(key: i64) -> f64 {
    f64::from_bits(flip(key).cast_unsigned())
}

/// Turns round the order of negative numbers, whose bits count upwards from zero; its own inverse.
const fn flip(bits: i64) -> i64 {
    if bits < 0 { bits ^ i64::MAX } else { bits }
}

fn at(sorted: &[f64], start: usize, confidence: f64) -> Interval {
    let get = |i: usize| sorted.get(i).copied().unwrap_or(f64::NAN);
    Interval { lower: get(start), upper: get(start + span(sorted.len(), confidence)), confidence }
}

/// Probabilistically symmetric interval (7.7.2): as many draws below it as above. The tails of `sorted` are; NaN ends if it is empty.
pub(super) fn symmetric(sorted: &[f64], confidence: f64) -> Interval {
    at(sorted, (sorted.len() - span(sorted.len(), confidence)) / 2, confidence)
}

/// Shortest interval (7.7.4): of all that span q draws, the first of least length. The tails of `sorted` are; NaN ends if
/// it is empty.
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

    /// Against draws that are all in order.
    #[test]
    fn the_tails_are_enough() {
        for n in [1, 2, 3, 19, 20, 21, 1000] {
            let draws: Vec<f64> = (0..n).map(|i| f64::from(i * 7919 % 1009) - f64::from(i % 5) * 0.3).collect();
            let mut sorted = draws.clone();
            sorted.sort_by(f64::total_cmp);
            for confidence in [0.1, 0.5, 0.8, 0.95, 0.999_99] {
                let mut tails = draws.clone();
                sort_tails(&mut tails, confidence);
                assert_eq!(
                    ends(symmetric(&tails, confidence)),
                    ends(symmetric(&sorted, confidence)),
                    "{n} {confidence}"
                );
                assert_eq!(ends(shortest(&tails, confidence)), ends(shortest(&sorted, confidence)), "{n} {confidence}");
            }
        }
    }

    /// q = 0.95 x 10 rounds up to 10 and is then cut to the 9 there are.
    #[test]
    fn few_draws_are_all_within() {
        let draws: Vec<f64> = (0..10).map(f64::from).collect();
        assert_eq!((ends(symmetric(&draws, 0.95)), ends(shortest(&draws, 0.95))), ((0.0, 9.0), (0.0, 9.0)));
        assert!(symmetric(&[], 0.95).lower.is_nan() && shortest(&[], 0.95).upper.is_nan());
    }
}
