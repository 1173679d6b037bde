//! Tables of the studentized range and of the noncentral t.

mod stats_support;

use calefact_stats::special::studentized_range::{studentized_range_cdf, studentized_range_quantile};
use stats_support::{agree, number, rows};

/// 72 values computed with mpmath, stored in scipy's tests. Its values below 1e-20 are off (the small-q limit, tested beside
/// the code, decides for ours), so those are compared in size only.
#[test]
fn studentized_range_distribution() {
    let Some(data) = rows("quantiles/studentized_range_cdf_mpmath.csv") else { return };
    for row in &data {
        let (q, k, nu, want) = (number(row, "q"), number(row, "k"), number(row, "nu"), number(row, "cdf_mpmath"));
        let got = studentized_range_cdf(q, k as usize, nu);
        assert!(
            (got - want).abs() <= 1e-20 + (0.01 * want).min(1e-12) + 1e-9 * want,
            "q {q} k {k} nu {nu}: {got} {want}"
        );
    }
}

/// scipy.stats.studentized_range.ppf; its own 0.99 points are good to a few 1e-9 at few degrees of freedom.
#[test]
fn studentized_range_quantiles() {
    let Some(data) = rows("quantiles/studentized_range_quantiles.csv") else { return };
    for row in &data {
        let k = number(row, "k_groups") as usize;
        let dof = row["df"].trim().parse().unwrap_or(f64::INFINITY);
        for (column, p) in [("q_0.95", 0.95), ("q_0.99", 0.99)] {
            agree(&format!("{column} {k} {dof}"), studentized_range_quantile(p, k, dof), number(row, column), 5e-9);
        }
    }
}
