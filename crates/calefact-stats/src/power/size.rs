//! Number of trials for a wanted power, or for a wanted half width of an interval.

use crate::dist::t_quantile;
use crate::power::test::{Tails, two_sample_power};
use crate::root;
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// Numbers are searched up to here.
const LARGEST: usize = 100_000;

/// Trials a group, not rounded, at which the two-sample t test has `power` for a true difference of `d` standard
/// deviations; `None` when d is zero or the power is not between alpha and 1.
pub fn n_per_group_exact(d: f64, power: f64, alpha: f64, tails: Tails) -> Option<f64> {
    if d == 0.0 || !(alpha < power && power < 1.0) {
        return None;
    }
    let lacking = |log_n: f64| {
        let n = 1.0 + log_n.exp();
        two_sample_power(d, n, n, alpha, tails) - power
    };
    let bracket = (1e-3f64.ln(), (LARGEST as f64).ln());
    (lacking(bracket.1) > 0.0).then(|| 1.0 + root::find(lacking, bracket, 1e-13).exp())
}

/// Whole trials a group for `power`, at least 2.
pub fn n_per_group(d: f64, power: f64, alpha: f64, tails: Tails) -> Option<usize> {
    n_per_group_exact(d, power, alpha, tails).map(|n| (n.ceil() as usize).max(2))
}

/// Trials for which a mean's interval has at most the half width `half_width`, in standard deviations:
/// t(n - 1) / sqrt(n) <= h. With `assurance` g, for which that happens with probability g although the standard deviation
/// found varies: t(n - 1) sqrt(chi2(g; n - 1) / (n - 1) / n) <= h (Kupper & Hafner 1989, Am. Stat. 43:101).
pub fn n_for_mean(half_width: f64, level: f64, assurance: Option<f64>) -> Option<usize> {
    smallest(2, |n| {
        let dof = n - 1.0;
        let inflation = assurance.map_or(Some(1.0), |g| ChiSquared::new(dof).ok().map(|c| c.inverse_cdf(g) / dof));
        inflation.is_some_and(|i| t_quantile(0.5 + 0.5 * level, dof) * (i / n).sqrt() <= half_width)
    })
}

/// Trials a group for which the interval of a difference of two means has at most the half width `half_width`, in
/// standard deviations of one trial: t(2 n - 2) sqrt(2 / n) <= h.
pub fn n_for_difference(half_width: f64, level: f64) -> Option<usize> {
    smallest(2, |n| t_quantile(0.5 + 0.5 * level, 2.0 * n - 2.0) * (2.0 / n).sqrt() <= half_width)
}

/// The smallest whole number from `start` on that is enough, by doubling and halving; `enough` must stay true once true.
pub(crate) fn smallest(start: usize, enough: impl Fn(f64) -> bool) -> Option<usize> {
    if enough(start as f64) {
        return Some(start);
    }
    let (mut short, mut step) = (start, 1);
    while !enough((short + step) as f64) {
        short += step;
        step *= 2;
        if short + step > LARGEST {
            return None;
        }
    }
    let mut long = short + step;
    while long - short > 1 {
        let middle = usize::midpoint(short, long);
        if enough(middle as f64) { long = middle } else { short = middle }
    }
    Some(long)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_smallest_number_is_found_exactly() {
        for limit in 2..70 {
            assert_eq!(smallest(2, |n| n >= f64::from(limit)), Some(limit as usize));
        }
        assert_eq!(smallest(2, |_| false), None);
    }

    #[test]
    fn what_cannot_be_reached_says_so() {
        assert_eq!(n_per_group(0.0, 0.8, 0.05, Tails::Two), None);
        assert_eq!(n_per_group(1.0, 1.0, 0.05, Tails::Two), None);
        assert_eq!(n_for_mean(0.0, 0.95, None), None);
    }
}
