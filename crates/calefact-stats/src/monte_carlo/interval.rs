//! Coverage intervals from sorted draws (JCGM 101:2008, 7.7).

use crate::estimate::Interval;

/// Number of draws the interval spans, q = p M rounded half up, at most M - 1.
fn span(draws: usize, level: f64) -> usize {
    ((level * draws as f64 + 0.5).floor() as usize).min(draws.saturating_sub(1))
}

fn at(sorted: &[f64], start: usize, level: f64) -> Interval {
    let get = |i: usize| sorted.get(i).copied().unwrap_or(f64::NAN);
    Interval { lower: get(start), upper: get(start + span(sorted.len(), level)), level }
}

/// Probabilistically symmetric interval (7.7.2): as many draws below it as above. `sorted` ascends; NaN ends if empty.
pub fn symmetric(sorted: &[f64], level: f64) -> Interval {
    at(sorted, (sorted.len() - span(sorted.len(), level)) / 2, level)
}

/// Shortest interval (7.7.4): of all that span q draws, the first of least length. `sorted` ascends; NaN ends if empty.
pub fn shortest(sorted: &[f64], level: f64) -> Interval {
    let q = span(sorted.len(), level);
    let length = |r: usize| sorted[r + q] - sorted[r];
    let start = (0..sorted.len().saturating_sub(q)).min_by(|a, b| length(*a).total_cmp(&length(*b))).unwrap_or(0);
    at(sorted, start, level)
}
