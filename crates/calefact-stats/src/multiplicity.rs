//! Judging several contrasts together: adjusted p-values and the intervals that go with them.
//!
//! The family is whatever the caller passes. Studentized-range adjustments of all pairs live in [`crate::tukey`].

use crate::contrast::Contrast;
use crate::dist::t_quantile;
use crate::estimate::Interval;
use serde::Serialize;

/// Ways to keep the chance of any false claim in a family of m tests below alpha.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Adjustment {
    /// No adjustment: each test stands alone.
    None,
    /// m p.
    Bonferroni,
    /// Step-down Bonferroni (Holm 1979, Scand. J. Statist. 6:65); never weaker than Bonferroni.
    Holm,
    /// Step-down 1 - (1 - p)^k (Holm's order, Sidak's bound); for independent or positively dependent tests.
    HolmSidak,
}

impl Adjustment {
    /// Adjusted p-values, in the order given.
    pub fn p_values(self, raw: &[f64]) -> Vec<f64> {
        let m = raw.len() as f64;
        match self {
            Self::None => raw.to_vec(),
            Self::Bonferroni => raw.iter().map(|p| (m * p).min(1.0)).collect(),
            Self::Holm => step_down(raw, |p, k| k * p),
            Self::HolmSidak => step_down(raw, sidak),
        }
    }

    /// One interval per contrast, consistent with the adjusted p-values: an interval of the family's `level` excludes
    /// "no effect" exactly when its adjusted p is below 1 - `level`.
    ///
    /// Each interval has its own pointwise level 1 - alpha_i, alpha_i = alpha / k_i with k_i the multiplier its p-value
    /// received. Bonferroni intervals hold jointly with probability `level`; the step-down ones follow the tests, whose
    /// family error is alpha, and their joint coverage is not guaranteed.
    pub fn intervals(self, contrasts: &[Contrast], level: f64) -> Vec<Interval> {
        let raw: Vec<f64> = contrasts.iter().map(|c| c.p_value).collect();
        let alphas = self.pointwise_alpha(&raw, 1.0 - level);
        let one = |(c, alpha): (&Contrast, f64)| c.interval_with(t_quantile(1.0 - 0.5 * alpha, c.dof), level);
        contrasts.iter().zip(alphas).map(one).collect()
    }

    fn pointwise_alpha(self, raw: &[f64], alpha: f64) -> Vec<f64> {
        let m = raw.len() as f64;
        match self {
            Self::None => vec![alpha; raw.len()],
            Self::Bonferroni => vec![alpha / m; raw.len()],
            Self::Holm => step_thresholds(raw, &self.p_values(raw), alpha, |k| alpha / k),
            Self::HolmSidak => step_thresholds(raw, &self.p_values(raw), alpha, |k| -((-alpha).ln_1p() / k).exp_m1()),
        }
    }
}

fn sidak(p: f64, k: f64) -> f64 {
    -(k * (-p).ln_1p()).exp_m1()
}

/// Indices of `raw` from the smallest p-value up; ties keep their order.
fn ascending(raw: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..raw.len()).collect();
    order.sort_by(|&i, &j| raw[i].total_cmp(&raw[j]));
    order
}

/// Running maximum of `adjust(p, number of hypotheses left)` from the smallest p-value up.
fn step_down(raw: &[f64], adjust: impl Fn(f64, f64) -> f64) -> Vec<f64> {
    let mut adjusted = vec![0.0; raw.len()];
    let mut largest: f64 = 0.0;
    for (rank, i) in ascending(raw).into_iter().enumerate() {
        largest = largest.max(adjust(raw[i], (raw.len() - rank) as f64));
        adjusted[i] = largest.min(1.0);
    }
    adjusted
}

/// The threshold each p-value had to meet; once one step fails, later ones keep that step's threshold, because nothing
/// after it can be claimed.
fn step_thresholds(raw: &[f64], adjusted: &[f64], alpha: f64, threshold: impl Fn(f64) -> f64) -> Vec<f64> {
    let mut out = vec![alpha; raw.len()];
    let mut failed: Option<f64> = None;
    for (rank, i) in ascending(raw).into_iter().enumerate() {
        let here = failed.unwrap_or_else(|| threshold((raw.len() - rank) as f64));
        out[i] = here;
        if adjusted[i] >= alpha {
            failed = Some(here);
        }
    }
    out
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
    fn holm_by_hand() {
        let p = [0.01, 0.04, 0.03, 0.005];
        assert!(close(&Adjustment::Holm.p_values(&p), &[0.03, 0.06, 0.06, 0.02]));
        assert!(close(&Adjustment::Bonferroni.p_values(&p), &[0.04, 0.16, 0.12, 0.02]));
    }

    #[test]
    fn intervals_agree_with_the_adjusted_tests() {
        let contrasts: Vec<Contrast> = [3.4, 2.6, 2.5, 0.3, -2.9]
            .iter()
            .map(|t| Contrast::new(ContrastKind::Difference, *t, 1.0, 20.0, 0.95))
            .collect();
        let raw: Vec<f64> = contrasts.iter().map(|c| c.p_value).collect();
        for method in [Adjustment::None, Adjustment::Bonferroni, Adjustment::Holm, Adjustment::HolmSidak] {
            let adjusted = method.p_values(&raw);
            for (interval, p) in method.intervals(&contrasts, 0.95).iter().zip(adjusted) {
                assert_eq!(interval.contains(0.0), p >= 0.05, "{method:?} {p}");
            }
        }
    }
}
