//! Estimators of the variance between trials.

use super::study::{Study, Weighted};
use crate::root;
use libm::{log, pow};

/// How the variance between trials is estimated; either is cut off at zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tau2Method {
    /// tau^2 at which Q equals its expectation k - 1 (Paule & Mandel 1982, J. Res. NBS 87:377).
    PauleMandel,
    /// Restricted maximum likelihood (Viechtbauer 2005, J. Educ. Behav. Stat. 30:261).
    Reml,
}

impl Tau2Method {
    /// tau^2 for at least two sound studies.
    pub(super) fn estimate(self, studies: &[Study]) -> f64 {
        match self {
            Self::PauleMandel => tau2_where_q_is(studies, studies.len() as f64 - 1.0),
            Self::Reml => maximise(studies),
        }
    }
}

/// A variance of the size of the problem: mean own variance and spread of the values.
fn scale(studies: &[Study]) -> f64 {
    let n = studies.len() as f64;
    let mean = studies.iter().map(|s| s.value).sum::<f64>() / n;
    let squares = |s: &Study| (s.value - mean) * (s.value - mean);
    studies.iter().map(|s| s.variance / n + squares(s)).sum()
}

/// tau^2 at which Q(tau^2), which falls with tau^2, equals `target`; 0 when Q is below it from the start.
pub(super) fn tau2_where_q_is(studies: &[Study], target: f64) -> f64 {
    let excess = |tau2: f64| Weighted::at(studies, tau2).q - target;
    if excess(0.0) <= 0.0 {
        return 0.0;
    }
    let mut high = scale(studies);
    while excess(high) > 0.0 && high.is_finite() {
        high *= 2.0;
    }
    root::find(excess, 0.0, high, 1e-15 * high)
}

/// ln restricted likelihood less constants: -1/2 [sum ln(v + tau^2) + Q + ln sum w].
fn log_likelihood(studies: &[Study], tau2: f64) -> f64 {
    let w = Weighted::at(studies, tau2);
    let logs: f64 = studies.iter().map(|s| log(s.variance + tau2)).sum();
    -0.5 * (logs + w.q + log(w.total))
}

/// Twice its derivative: -sum w + sum w^2 (y - mu)^2 + sum w^2 / sum w.
fn score(studies: &[Study], tau2: f64) -> f64 {
    let w = Weighted::at(studies, tau2);
    w.q2 - w.total + w.squares / w.total
}

/// The highest point of the likelihood over tau^2 >= 0: the best of a logarithmic grid, then the exact root of the score
/// between its neighbours. The grid guards against a second, lower peak.
fn maximise(studies: &[Study]) -> f64 {
    let scale = scale(studies);
    let tenths = (0..=120).map(|i| scale * pow(10.0, f64::from(i) / 10.0 - 10.0));
    let grid: Vec<f64> = std::iter::once(0.0).chain(tenths).collect();
    let heights: Vec<f64> = grid.iter().map(|tau2| log_likelihood(studies, *tau2)).collect();
    let best = (0..grid.len()).max_by(|i, j| heights[*i].total_cmp(&heights[*j])).unwrap_or(0);
    let low = grid[best.saturating_sub(1)];
    let high = grid[(best + 1).min(grid.len() - 1)];
    let slope = |tau2: f64| score(studies, tau2);
    if slope(low) <= 0.0 { low } else { root::find(slope, low, high, 1e-15 * high) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nine laboratories, Kacker 2004 (Metrologia 41:132): Paule-Mandel tau 0.8399.
    fn kacker() -> Vec<Study> {
        let values = [61.00, 61.40, 62.21, 62.30, 62.34, 62.60, 62.70, 62.84, 65.90];
        let variances = [0.2025, 1.21, 0.09, 0.2025, 0.3844, 0.5625, 0.0676, 0.0225, 1.8225];
        values.into_iter().zip(variances).map(|(value, variance)| Study { value, variance }).collect()
    }

    #[test]
    fn kacker_2004() {
        assert!((Tau2Method::PauleMandel.estimate(&kacker()).sqrt() - 0.8399).abs() < 5e-5);
    }

    #[test]
    fn the_likelihood_is_at_its_peak() {
        let studies = kacker();
        let tau2 = Tau2Method::Reml.estimate(&studies);
        assert!(score(&studies, tau2).abs() < 1e-9);
        for other in [0.9 * tau2, 1.1 * tau2, 0.0, 5.0] {
            assert!(log_likelihood(&studies, other) < log_likelihood(&studies, tau2));
        }
    }

    #[test]
    fn equal_values_give_no_variance_between() {
        let studies = [Study { value: 1.0, variance: 0.5 }, Study { value: 1.0, variance: 0.1 }];
        for method in [Tau2Method::Reml, Tau2Method::PauleMandel] {
            assert!(method.estimate(&studies) < 1e-9, "{method:?}");
        }
    }
}
