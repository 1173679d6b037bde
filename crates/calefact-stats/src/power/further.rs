//! How many further trials a contrast at hand would need.

use super::t_test::t_power;
use crate::contrast::cautious_dof;
use crate::dist::{normal_cdf, normal_quantile};

/// One side of the contrast as it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arm {
    /// Trials so far.
    pub n: usize,
    /// Standard deviation of single trials (of their logarithms, for a ratio); for a group of one, the other group's.
    pub sd: f64,
}

/// A true difference to show, and the probability of showing it. A difference just observed tends to exceed the true one, so
/// the number found is then on the low side; better is the smallest difference that would matter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Goal {
    /// True difference (of logarithms, for a ratio).
    pub difference: f64,
    /// Wanted power, such as 0.8.
    pub power: f64,
    /// Two-sided alpha; for one of m Holm-adjusted contrasts, alpha / m is on the safe side.
    pub alpha: f64,
}

/// Further trials in each of the two groups.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Further {
    /// So many more in each group; 0 when the goal is met.
    Each(usize),
    /// No number will do: the error both groups do not share stays however many trials are made, or the difference is zero.
    Never,
}

/// Smallest number of further trials in each group that meets `goal`.
///
/// With m further trials, u^2 = s_a^2 / (n_a + m) + s_b^2 / (n_b + m) + u_s^2, degrees of freedom by
/// [`cautious_dof`] with n + m - 1 for each scatter. `lasting` is u_s, the part of the contrast's uncertainty that further trials do not
/// reduce (instruments, calorific values). The standard deviations are taken as they stand.
pub fn further_trials(a: Arm, b: Arm, lasting: f64, goal: Goal) -> Further {
    if !reachable(lasting, goal) {
        return Further::Never;
    }
    let fewest = 2usize.saturating_sub(a.n.min(b.n));
    // No t test has more power than the normal one, which is quickly computed.
    let Some(fewest) = smallest(fewest, |m| met_by_normal(goal, uncertainty(a, b, lasting, m))) else {
        return Further::Never;
    };
    smallest(fewest, |m| {
        let (u, dof) = planned(a, b, lasting, m);
        met(goal, u, dof)
    })
    .map_or(Further::Never, Further::Each)
}

/// Standard uncertainty and degrees of freedom with `m` further trials in each group.
pub(super) fn planned(a: Arm, b: Arm, lasting: f64, m: f64) -> (f64, f64) {
    let part = |arm: Arm| (arm.sd / (arm.n as f64 + m).sqrt(), arm.n as f64 + m - 1.0);
    let parts = [part(a), part(b), (lasting, f64::INFINITY)];
    let u = parts.iter().map(|p| p.0 * p.0).sum::<f64>().sqrt();
    (u, cautious_dof(parts))
}

/// Standard uncertainty with `m` further trials in each group.
fn uncertainty(a: Arm, b: Arm, lasting: f64, m: f64) -> f64 {
    let square = |arm: Arm| arm.sd * arm.sd / (arm.n as f64 + m);
    (square(a) + square(b) + lasting * lasting).sqrt()
}

/// A little less than the goal is asked, for the rounding of the two tests.
fn met_by_normal(goal: Goal, u: f64) -> bool {
    let (critical, shift) = (normal_quantile(1.0 - 0.5 * goal.alpha), goal.difference.abs() / u);
    u == 0.0 || normal_cdf(shift - critical) + normal_cdf(-shift - critical) >= goal.power - 1e-6
}

pub(super) fn met(goal: Goal, u: f64, dof: f64) -> bool {
    u == 0.0 || t_power(goal.difference.abs() / u, dof, goal.alpha) >= goal.power
}

/// Whether the goal could be met with any number of trials.
pub(super) fn reachable(lasting: f64, goal: Goal) -> bool {
    goal.difference != 0.0 && (lasting == 0.0 || met(goal, lasting, f64::INFINITY))
}

/// Numbers are searched up to here.
const LARGEST: usize = 100_000;

/// The smallest whole number from `start` on that is enough, by doubling and halving; `enough` must stay true once true.
fn smallest(start: usize, enough: impl Fn(f64) -> bool) -> Option<usize> {
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

    const POWER: Goal = Goal { difference: 1.0, power: 0.8, alpha: 0.05 };

    /// With equal groups and equal spread this is the ordinary two-sample size: 17 a group for d = 1, power 0.8, two-sided
    /// 0.05 (Cohen 1988, table 2.4.1), so 14 more than 3.
    #[test]
    fn equal_groups_are_the_ordinary_size() {
        let arm = Arm { n: 3, sd: 1.0 };
        assert_eq!(further_trials(arm, arm, 0.0, POWER), Further::Each(14));
        let ample = Arm { n: 40, sd: 1.0 };
        assert_eq!(further_trials(ample, ample, 0.0, POWER), Further::Each(0));
    }

    #[test]
    fn the_smallest_number_is_found_exactly() {
        for limit in 2..70 {
            assert_eq!(smallest(2, |n| n >= f64::from(limit)), Some(limit as usize));
        }
        assert_eq!(smallest(2, |_| false), None);
    }

    #[test]
    fn the_normal_test_never_asks_for_more() {
        for n in [0, 2, 7] {
            for (sd, lasting, alpha) in [(0.2, 0.0, 0.05), (1.0, 0.1, 1e-4), (3.0, 0.0, 1e-6), (2.0, 0.2, 0.01)] {
                let (arm, goal) = (Arm { n, sd }, Goal { alpha, ..POWER });
                let by_t = |m: f64| {
                    let (u, dof) = planned(arm, arm, lasting, m);
                    met(goal, u, dof)
                };
                let all = smallest(2usize.saturating_sub(n), by_t).map_or(Further::Never, Further::Each);
                assert_eq!(further_trials(arm, arm, lasting, goal), all, "{n} {sd} {lasting} {alpha}");
            }
        }
    }

    #[test]
    fn a_group_of_one_needs_at_least_one_more() {
        let one = Arm { n: 1, sd: 0.01 };
        assert!(matches!(further_trials(one, one, 0.0, POWER), Further::Each(m) if m >= 1));
    }

    #[test]
    fn a_lasting_error_cannot_be_outrun() {
        let arm = Arm { n: 3, sd: 1.0 };
        assert_eq!(further_trials(arm, arm, 0.5, POWER), Further::Never);
        let none = Goal { difference: 0.0, power: 0.8, alpha: 0.05 };
        assert_eq!(further_trials(arm, arm, 0.0, none), Further::Never);
    }
}
