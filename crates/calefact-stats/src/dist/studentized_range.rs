//! Distribution of the studentized range: the range of k standard normal values over an independent estimate of their
//! standard deviation with nu degrees of freedom.
//!
//! The integral over the standard deviation is done by the trapezoidal rule, which converges geometrically for analytic integrands that vanish at
//! both ends (Trefethen & Weideman 2014, SIAM Review 56:385). The range over a known one is in [`super::normal_range`].

use super::normal_range::NormalRange;
use crate::root;
use libm::{exp, lgamma, log};

/// P(Q > q), the adjusted p-value of a studentized difference. Relative error about 1e-9 down to 1e-20.
pub fn studentized_range_sf(q: f64, k: usize, dof: f64) -> f64 {
    if !is_defined(q, k, dof) {
        return f64::NAN;
    }
    if q <= 0.0 { 1.0 } else { NormalRange::with(k, |range| averaged(q, dof, range)) }
}

fn is_defined(q: f64, k: usize, dof: f64) -> bool {
    !q.is_nan() && k >= 2 && dof > 0.0
}

/// Not far beyond this range the upper tail of normal values is zero in floats.
const FARTHEST: f64 = 45.0;

/// Integral over s > 0 of f(s) R(q s) ds, f the density of chi_nu / sqrt(nu) and R the upper tail of the range of k normal
/// values (Lund & Lund 1983, Appl. Statist. 32:204; Copenhaver & Holland 1988, J. Stat. Comput. Simul. 30:1). The variable
/// is x = ln s.
fn averaged(q: f64, dof: f64, range: &NormalRange) -> f64 {
    if dof > 1e6 {
        return range.sf(q);
    }
    let step = 0.12f64.min(0.5 / (2.0 * dof).sqrt());
    let log_constant = std::f64::consts::LN_2 + 0.5 * dof * log(0.5 * dof) - lgamma(0.5 * dof);
    let term = |x: f64| {
        let density = exp(log_constant + dof * x - 0.5 * dof * exp(2.0 * x));
        density * range.sf(q * exp(x))
    };
    // Far out small s alone contributes: the sums begin where the range's own tail leaves zero.
    let middle = log(FARTHEST / q).min(0.0);
    let right = sum_outwards(middle, step, &term);
    let left = sum_outwards(middle - step, -step, &term);
    (step * (left + right)).clamp(0.0, 1.0)
}

/// Sum of `term` at `start`, `start + step`, ... until terms have become negligible and fall.
fn sum_outwards(start: f64, step: f64, term: &impl Fn(f64) -> f64) -> f64 {
    let (mut sum, mut last) = (0.0, 0.0);
    for i in 0..4000 {
        let value = term(start + f64::from(i) * step);
        sum += value;
        if value <= last && value <= 1e-17 * sum {
            break;
        }
        last = value;
    }
    sum
}

/// q such that P(Q <= q) = `p`, by bracketing and false position on ln q; relative error about 1e-11.
pub fn studentized_range_quantile(p: f64, k: usize, dof: f64) -> f64 {
    if !(0.0..1.0).contains(&p) || k < 2 || dof.is_nan() || dof <= 0.0 {
        return f64::NAN;
    }
    if p == 0.0 {
        return 0.0;
    }
    let excess = |x: f64| (1.0 - p) - studentized_range_sf(exp(x), k, dof);
    let found = root::bracket(excess, 1.0, 0.5).map(|(low, high)| root::find(excess, low, high, 1e-12));
    found.map_or(f64::NAN, exp)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::normal_cdf;
    use crate::dist::student::{t_cdf, t_quantile};
    use std::f64::consts::FRAC_1_SQRT_2;

    /// For two groups Q = sqrt(2) |t|: exact.
    #[test]
    fn two_groups_are_student() {
        for dof in [1.0, 2.5, 7.0, 40.0, f64::INFINITY] {
            let exact = std::f64::consts::SQRT_2 * t_quantile(0.975, dof);
            let q = studentized_range_quantile(0.95, 2, dof);
            assert!((q / exact - 1.0).abs() < 1e-9, "{dof} {q} {exact}");
        }
    }

    /// Percentage points 4.34, 3.77, 4.05, 4.23, 3.31 of the usual tables (e.g. Pearson & Hartley, table 29).
    #[test]
    fn usual_table() {
        for (k, dof, q) in [(3, 6.0, 4.34), (3, 12.0, 3.77), (4, 16.0, 4.05), (5, 20.0, 4.23), (3, f64::INFINITY, 3.31)]
        {
            assert!((studentized_range_quantile(0.95, k, dof) - q).abs() < 0.0051);
        }
    }

    /// Two groups have twice Student's tail of q / sqrt(2), exact however small.
    #[test]
    fn the_upper_tail_keeps_its_digits() {
        for (q, dof) in [(12.0, 10.0), (30.0, 12.0), (100.0, 8.0), (1e4, 5.0), (12.0, 1300.0), (49.0, 400.0)] {
            let exact = 2.0 * t_cdf(-q * FRAC_1_SQRT_2, dof);
            let ratio = studentized_range_sf(q, 2, dof) / exact;
            assert!((ratio - 1.0).abs() < 1e-8, "{q} {dof}: {ratio} of {exact}");
        }
    }

    /// Three normal values: the six ordered pairs exclude each other but for a share of the order of exp(-w^2 / 12).
    #[test]
    fn far_out_pairs_exclude_each_other() {
        for w in [10.0, 12.0, 13.0f64] {
            let pairs = 6.0 * normal_cdf(-w * FRAC_1_SQRT_2);
            let ratio = studentized_range_sf(w, 3, f64::INFINITY) / pairs;
            assert!(ratio < 1.0 && 1.0 - ratio < 3.0 * exp(-w * w / 12.0), "{w}: {ratio} of {pairs}");
        }
    }

    #[test]
    fn nonsense_is_not_a_number() {
        assert!(studentized_range_quantile(1.0, 3, 3.0).is_nan());
        assert!(studentized_range_sf(-1.0, 3, 3.0) >= 1.0 && studentized_range_sf(0.0, 3, 3.0) >= 1.0);
        assert!(studentized_range_sf(f64::NAN, 3, 3.0).is_nan() && studentized_range_sf(1.0, 1, 3.0).is_nan());
    }
}
