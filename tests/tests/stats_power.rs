//! Power and sample size tables: exact noncentral t (30-digit quadrature), statsmodels, half widths.

mod stats_support;

use calefact_stats::group::Summary;
use calefact_stats::power::{
    Tails, n_for_difference, n_for_mean, n_per_group, n_per_group_exact, one_sample_power, two_sample_power,
};
use stats_support::{agree, number, rows};

#[test]
fn power_grid() {
    let Some(data) = rows("power/ttest_ind_power_grid.csv") else { return };
    for row in &data {
        let (d, n, alpha) = (number(row, "d"), number(row, "n_per_group"), number(row, "alpha"));
        let power = |tails| two_sample_power(d, n, n, alpha, tails);
        agree("two-sided", power(Tails::Two), number(row, "power_two_sided"), 1e-9);
        agree("one-sided", power(Tails::Upper), number(row, "power_one_sided"), 1e-9);
    }
}

/// mpmath quadrature of the definition, 30 digits.
#[test]
fn noncentral_t_by_quadrature() {
    let Some(data) = rows("power/nct_quadrature_check.csv") else { return };
    for row in &data {
        let n = number(row, "n_per_group");
        let got = two_sample_power(number(row, "d"), n, n, 0.05, Tails::Two);
        agree("power", got, number(row, "power_mpmath_quadrature"), 1e-10);
    }
}

#[test]
fn unequal_numbers() {
    let Some(data) = rows("power/ttest_ind_unequal_n.csv") else { return };
    for row in &data {
        let got =
            two_sample_power(number(row, "d"), number(row, "n1"), number(row, "n2"), number(row, "alpha"), Tails::Two);
        agree("power", got, number(row, "power_two_sided_exact"), 1e-9);
    }
}

#[test]
fn numbers_per_group() {
    let Some(data) = rows("power/ttest_ind_n_per_group.csv") else { return };
    for row in &data {
        let tails = if row["alternative"] == "two-sided" { Tails::Two } else { Tails::Upper };
        let (d, power, alpha) = (number(row, "d"), number(row, "target_power"), number(row, "alpha"));
        let exact = n_per_group_exact(d, power, alpha, tails).expect("reachable");
        agree(&format!("{tails:?} d {d} power {power}"), exact, number(row, "n_exact_nct"), 1e-8);
        let n = n_per_group(d, power, alpha, tails).expect("reachable");
        assert_eq!(n, number(row, "n_ceil") as usize);
        let at = |n: f64| two_sample_power(d, n, n, alpha, tails);
        agree("at n", at(n as f64), number(row, "power_at_n_ceil"), 1e-9);
        assert!(at(n as f64 - 1.0) < power || n == 2);
    }
}

#[test]
fn one_sample() {
    let Some(data) = rows("power/ttest_paired_one_sample.csv") else { return };
    for row in &data {
        let (d, want) = (number(row, "dz"), number(row, "target_power"));
        agree("power", one_sample_power(d, number(row, "n_exact"), number(row, "alpha"), Tails::Two), want, 1e-9);
    }
}

#[test]
fn numbers_for_a_half_width() {
    let Some(data) = rows("power/precision_n.csv") else { return };
    for row in &data {
        let h = number(row, "halfwidth_over_s");
        let want = |column| Some(number(row, column) as usize);
        assert_eq!(n_for_mean(h, 0.95, None), want("n_mean_t"), "{h}");
        assert_eq!(n_for_difference(h, 0.95), want("n_per_group_diff_t"), "{h}");
        assert_eq!(n_for_mean(h, 0.95, Some(0.8)), want("n_mean_t_assurance80_sigma_known_planning"), "{h}");
        assert_eq!(n_for_mean(h, 0.95, Some(0.9)), want("n_mean_t_assurance90"), "{h}");
    }
}

#[test]
fn half_widths_and_prediction_factors() {
    let (Some(widths), Some(factors)) = (rows("power/halfwidth_by_n.csv"), rows("quantiles/prediction_factors.csv"))
    else {
        return;
    };
    let unit = |n: f64| Summary::from_parts(n as usize, 0.0, 1.0);
    for row in &widths {
        let i = unit(number(row, "n")).mean_interval(0.95).expect("scatter");
        agree("half width", i.half_width(), number(row, "halfwidth_mean_over_s"), 1e-9);
    }
    for row in &factors {
        let s = unit(number(row, "n"));
        let half = |m| s.prediction_interval(m, 0.95).expect("scatter").half_width();
        agree("next one", half(1), number(row, "pred_1_future_95 = t975*sqrt(1+1/n)"), 1e-9);
        agree("next three", half(3), number(row, "pred_mean_of_3_future_95 = t975*sqrt(1/3+1/n)"), 1e-9);
    }
}
