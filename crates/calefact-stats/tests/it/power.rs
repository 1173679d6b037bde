//! Power and numbers of trials: exact noncentral t (30-digit quadrature), statsmodels.

use crate::data::{agree, number, table};
use calefact_stats::contrast::cautious_dof;
use calefact_stats::power::{Arm, Further, Goal, further_trials, t_power};

/// Power of the two-sample test with n trials a group for a difference in standard deviations.
fn two_sample(difference: f64, n: f64, alpha: f64) -> f64 {
    t_power(difference / (2.0 / n).sqrt(), 2.0 * n - 2.0, alpha)
}

#[test]
fn power_grid() {
    for row in table("power/two-sample.csv") {
        let got = two_sample(number(&row, "difference"), number(&row, "n"), number(&row, "alpha"));
        agree(&format!("{row:?}"), got, number(&row, "power"), 1e-9);
    }
}

/// mpmath quadrature of the definition, 30 digits.
#[test]
fn power_by_quadrature() {
    for (difference, n, power) in [
        (0.5, 64.0, 0.801_459_557_922_254),
        (1.0, 17.0, 0.807_036_715_147_22),
        (1.5, 9.0, 0.847_610_104_156_09),
        (2.0, 3.0, 0.462_640_811_891_307),
        (1.0, 3.0, 0.158_790_870_005_201),
        (3.0, 3.0, 0.782_554_387_058_117),
    ] {
        agree("power", two_sample(difference, n, 0.05), power, 1e-10);
    }
}

fn a_group(goal: Goal) -> usize {
    let none = Arm { n: 0, sd: 1.0 };
    let Further::Each(n) = further_trials(none, none, 0.0, goal) else { panic!("within reach") };
    n
}

/// Whole numbers a group by the exact noncentral t.
#[test]
fn numbers_for_a_power() {
    for row in table("power/numbers.csv") {
        let (difference, power) = (number(&row, "difference"), number(&row, "power"));
        let n = a_group(Goal { difference, power, alpha: number(&row, "alpha") });
        assert_eq!(n.to_string(), row["n"], "{row:?}");
    }
}

/// Unequal groups and an error that stays: the number found meets the goal and one less does not, by the formulas of the
/// power and of the uncertainty themselves.
#[test]
fn further_trials_with_a_lasting_error() {
    let (a, b, lasting) = (Arm { n: 2, sd: 1.0 }, Arm { n: 5, sd: 0.6 }, 0.2);
    let goal = Goal { difference: 1.2, power: 0.8, alpha: 0.05 };
    let Further::Each(m) = further_trials(a, b, lasting, goal) else { panic!("within reach") };
    let power = |m: usize| {
        let (na, nb) = ((a.n + m) as f64, (b.n + m) as f64);
        let (ua, ub) = (a.sd / na.sqrt(), b.sd / nb.sqrt());
        let dof = cautious_dof([(ua, na - 1.0), (ub, nb - 1.0), (lasting, f64::INFINITY)]);
        t_power(1.2 / (ua * ua + ub * ub + lasting * lasting).sqrt(), dof, 0.05)
    };
    assert!(m > 0 && power(m) >= 0.8 && power(m - 1) < 0.8, "{m}");
}
