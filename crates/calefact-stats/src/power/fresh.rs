//! How many trials a comparison of two groups needs from its first trial on, for a power or for the width of an interval, and
//! what errors that last keep out of reach.

use super::further::{Arm, Goal, met, planned, reachable};
use crate::dist::{normal_quantile, t_quantile};

/// Scatter of the trials of two groups, and the error they share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// Standard deviation of single trials, taken as the same in both groups.
    pub sd: f64,
    /// Part of the standard uncertainty of the difference that no number of trials reduces.
    pub lasting: f64,
}

/// Trials that each of two groups needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Needed {
    /// So many; the next whole number is what can be made, the fraction tells what a better instrument saves.
    Trials(f64),
    /// More than [`MOST`].
    Beyond,
    /// No number: the lasting error alone is too large.
    Never,
}

/// Numbers are searched up to here.
pub const MOST: f64 = 1e6;

impl Needed {
    /// The whole number of trials.
    pub fn whole(self) -> Option<u32> {
        match self {
            Self::Trials(n) => Some((n - 1e-6).ceil().max(2.0) as u32),
            Self::Beyond | Self::Never => None,
        }
    }
}

/// Trials of each group that show the goal's difference with its power, by the noncentral t, as
/// [`further_trials`](super::further_trials) counts them from groups without trials.
pub fn trials_for_power(scatter: Scatter, goal: Goal) -> Needed {
    if !reachable(scatter.lasting, goal) {
        return Needed::Never;
    }
    least(|n| {
        let (u, dof) = with(scatter, n);
        met(goal, u, dof)
    })
}

/// Trials of each group that make the 1 - alpha interval of the difference as narrow as `width`: 2 t(1 - alpha/2; nu) u at most.
pub fn trials_for_width(scatter: Scatter, width: f64, alpha: f64) -> Needed {
    if narrowest_width(scatter.lasting, alpha) >= width {
        return Needed::Never;
    }
    least(|n| {
        let (u, dof) = with(scatter, n);
        2.0 * t_quantile(1.0 - 0.5 * alpha, dof) * u <= width
    })
}

/// The smallest difference that any number of trials shows: (z(1 - alpha/2) + z(power)) u_s, the other tail left out.
pub fn smallest_difference(lasting: f64, power: f64, alpha: f64) -> f64 {
    ((normal_quantile(1.0 - 0.5 * alpha) + normal_quantile(power)) * lasting).max(0.0)
}

/// The width of the interval of the difference that no number of trials makes smaller: 2 z(1 - alpha/2) u_s.
pub fn narrowest_width(lasting: f64, alpha: f64) -> f64 {
    2.0 * normal_quantile(1.0 - 0.5 * alpha) * lasting
}

/// Standard uncertainty of the difference and its degrees of freedom with n trials in each group.
fn with(scatter: Scatter, n: f64) -> (f64, f64) {
    let arm = Arm { n: 0, sd: scatter.sd };
    planned(arm, arm, scatter.lasting, n)
}

/// The least n from 2 on that is enough, by halving on its logarithm; `enough` must stay true once true.
fn least(enough: impl Fn(f64) -> bool) -> Needed {
    if enough(2.0) {
        return Needed::Trials(2.0);
    }
    if !enough(MOST) {
        return Needed::Beyond;
    }
    let (mut short, mut long) = (libm::log(2.0), libm::log(MOST));
    while long - short > 1e-9 {
        let middle = f64::midpoint(short, long);
        if enough(libm::exp(middle)) { long = middle } else { short = middle }
    }
    Needed::Trials(libm::exp(long))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::power::{Further, further_trials};

    const ALONE: Scatter = Scatter { sd: 1.0, lasting: 0.0 };

    fn for_power(difference: f64, power: f64, alpha: f64) -> Option<u32> {
        trials_for_power(ALONE, Goal { difference, power, alpha }).whole()
    }

    /// Cohen 1988, table 2.4.1, two-sided alpha 0.05, power 0.8 (values from memory; `TTestIndPower` of statsmodels
    /// 0.15.0 gives 63.77, 25.52 and 16.71): d = 0.5, 0.8 and 1.0 take 64, 26 and 17 a group.
    #[test]
    fn numbers_of_the_published_table() {
        assert_eq!([0.5, 0.8, 1.0].map(|d| for_power(d, 0.8, 0.05)), [Some(64), Some(26), Some(17)]);
    }

    #[test]
    fn the_fraction_rounds_up_to_what_whole_trials_need() {
        let none = Arm { n: 0, sd: 1.0 };
        for (difference, power, lasting) in [(0.3, 0.8, 0.0), (1.1, 0.9, 0.1), (2.5, 0.8, 0.3), (4.0, 0.5, 0.0)] {
            let goal = Goal { difference, power, alpha: 0.032 };
            let Further::Each(n) = further_trials(none, none, lasting, goal) else { panic!("within reach") };
            assert_eq!(trials_for_power(Scatter { sd: 1.0, lasting }, goal).whole(), Some(n as u32), "{goal:?}");
        }
    }

    /// n with 2 t(.975; 2n - 2) sqrt(2/n) <= 1 in standard deviations: 32 gives 0.9995, 31 gives 1.0161, by t = 1.99897 and 2.00030
    /// at 62 and 60 degrees of freedom (tables of t, from memory).
    #[test]
    fn width_by_its_closed_form() {
        assert_eq!(trials_for_width(ALONE, 1.0, 0.05).whole(), Some(32));
    }

    #[test]
    fn a_lasting_error_is_a_floor() {
        let lasting = 0.5;
        let floor = smallest_difference(lasting, 0.8, 0.05);
        assert!((floor - 0.5 * (1.959_964 + 0.841_621)).abs() < 1e-5);
        let scatter = Scatter { sd: 1.0, lasting };
        let goal = |difference| Goal { difference, power: 0.8, alpha: 0.05 };
        assert_eq!(trials_for_power(scatter, goal(0.999 * floor)), Needed::Never);
        assert!(matches!(trials_for_power(scatter, goal(1.01 * floor)), Needed::Trials(_)));
        let width = narrowest_width(lasting, 0.05);
        assert_eq!(trials_for_width(scatter, width, 0.05), Needed::Never);
        assert!(matches!(trials_for_width(scatter, 1.01 * width, 0.05), Needed::Trials(_)));
        assert_eq!(trials_for_power(ALONE, goal(1e-4)), Needed::Beyond);
    }
}
