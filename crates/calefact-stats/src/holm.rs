//! Judging several contrasts together by Holm's step-down form of Bonferroni (1979, Scand. J. Statist. 6:65): the chance of
//! any false claim in a family stays below alpha, whatever its tests have in common.
//!
//! The family is whatever the caller passes. All pairs by the studentized range live in [`crate::tukey`].

use crate::contrast::Contrast;
use crate::dist::t_quantile;
use crate::estimate::Interval;

/// Adjusted p-values, in the order given: from the smallest up, the running maximum of p times the number of hypotheses
/// left, at most 1.
pub fn adjusted_p(raw: &[f64]) -> Vec<f64> {
    let mut adjusted = vec![0.0; raw.len()];
    let mut largest: f64 = 0.0;
    for (rank, i) in ascending(raw).into_iter().enumerate() {
        largest = largest.max((raw.len() - rank) as f64 * raw[i]);
        adjusted[i] = largest.min(1.0);
    }
    adjusted
}

/// One interval per contrast, consistent with the adjusted p-values: an interval excludes "no effect" exactly when its
/// adjusted p is below 1 - `confidence`.
///
/// Each interval has a pointwise alpha / k with k the multiplier its p-value received. The intervals follow the tests,
/// whose family error is alpha; their joint coverage is not guaranteed.
pub fn intervals(contrasts: &[Contrast], confidence: f64) -> Vec<Interval> {
    let raw: Vec<f64> = contrasts.iter().map(|c| c.p_value).collect();
    let interval = |(c, alpha): (&Contrast, f64)| c.interval_with(t_quantile(1.0 - 0.5 * alpha, c.dof), confidence);
    contrasts.iter().zip(thresholds(&raw, 1.0 - confidence)).map(interval).collect()
}

/// The threshold each p-value had to meet; once one step fails, later ones keep that step's threshold, because nothing
/// after it can be claimed.
fn thresholds(raw: &[f64], alpha: f64) -> Vec<f64> {
    let adjusted = adjusted_p(raw);
    let mut thresholds = vec![alpha; raw.len()];
    let mut failed: Option<f64> = None;
    for (rank, i) in ascending(raw).into_iter().enumerate() {
        let here = failed.unwrap_or_else(|| alpha / (raw.len() - rank) as f64);
        thresholds[i] = here;
        if adjusted[i] >= alpha {
            failed = Some(here);
        }
    }
    thresholds
}

/// Indices of `raw` from the smallest p-value up; ties keep their order.
fn ascending(raw: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..raw.len()).collect();
    order.sort_by(|&i, &j| raw[i].total_cmp(&raw[j]));
    order
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::contrast::ContrastKind;

    fn close(a: &[f64], b: &[f64]) -> bool {
        a.len() == b.len() && a.iter().zip(b).all(|(x, y)| (x - y).abs() < 1e-12)
    }

    /// By hand: sorted .005 .01 .03 .04 times 4 3 2 1, running maximum.
    #[test]
    fn adjusted_by_hand() {
        assert!(close(&adjusted_p(&[0.01, 0.04, 0.03, 0.005]), &[0.03, 0.06, 0.06, 0.02]));
        assert!(close(&adjusted_p(&[0.7, 0.6]), &[1.0, 1.0]));
    }

    /// By hand, alpha .05: .005 meets .05/4, .01 meets .05/3, .03 fails .05/2, and .04 keeps that threshold.
    #[test]
    fn thresholds_by_hand() {
        let wanted = [0.05 / 3.0, 0.05 / 2.0, 0.05 / 2.0, 0.05 / 4.0];
        assert!(close(&thresholds(&[0.01, 0.04, 0.03, 0.005], 0.05), &wanted));
    }

    #[test]
    fn intervals_agree_with_the_adjusted_tests() {
        let contrast = |t: &f64| Contrast::new(ContrastKind::Difference, *t, 1.0, 20.0, 0.95);
        let contrasts: Vec<Contrast> = [3.4, 2.6, 2.5, 0.3, -2.9].iter().map(contrast).collect();
        let raw: Vec<f64> = contrasts.iter().map(|c| c.p_value).collect();
        for (interval, p) in intervals(&contrasts, 0.95).iter().zip(adjusted_p(&raw)) {
            assert_eq!(interval.contains(0.0), p >= 0.05, "{p}");
        }
    }
}
