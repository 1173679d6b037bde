//! Estimators of the variance between trials.

use crate::pooling::{Study, Weighted};
use crate::root;
use serde::Serialize;

/// How the variance between trials is estimated; every one is cut off at zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tau2Method {
    /// tau^2 = 0: one common value, the trials differ by their own errors alone.
    Fixed,
    /// Moment estimator with weights 1 / v (DerSimonian & Laird 1986, Control. Clin. Trials 7:177).
    DerSimonianLaird,
    /// tau^2 at which Q equals its expectation k - 1 (Paule & Mandel 1982, J. Res. NBS 87:377).
    PauleMandel,
    /// Unweighted moment estimator: sample variance less the mean of v (Hedges & Olkin 1985).
    HedgesOlkin,
    /// Maximum likelihood; too small for few trials.
    MaximumLikelihood,
    /// Restricted maximum likelihood (Viechtbauer 2005, J. Educ. Behav. Stat. 30:261).
    Reml,
    /// Two-step estimator that is never zero (Sidik & Jonkman 2005, J. R. Statist. Soc. C 54:367).
    SidikJonkman,
}

impl Tau2Method {
    /// tau^2 for at least two sound studies; 0 for fewer.
    pub fn estimate(self, studies: &[Study]) -> f64 {
        if studies.len() < 2 {
            return 0.0;
        }
        match self {
            Self::Fixed => 0.0,
            Self::DerSimonianLaird => dersimonian_laird(studies),
            Self::PauleMandel => tau2_where_q_is(studies, studies.len() as f64 - 1.0),
            Self::HedgesOlkin => (sample_variance(studies) - mean_variance(studies)).max(0.0),
            Self::MaximumLikelihood => maximise(studies, false),
            Self::Reml => maximise(studies, true),
            Self::SidikJonkman => sidik_jonkman(studies),
        }
    }

    /// Large-sample standard error of tau^2 from the expected information; for the two likelihood methods only.
    pub fn std_error(self, studies: &[Study], tau2: f64) -> Option<f64> {
        let w = Weighted::at(studies, tau2);
        match self {
            Self::MaximumLikelihood => Some((2.0 / w.squares).sqrt()),
            Self::Reml => {
                let information = w.squares - 2.0 * w.cubes / w.total + (w.squares / w.total).powi(2);
                Some((2.0 / information).sqrt())
            }
            _ => None,
        }
    }
}

fn mean_variance(studies: &[Study]) -> f64 {
    studies.iter().map(|s| s.variance).sum::<f64>() / studies.len() as f64
}

fn sample_variance(studies: &[Study]) -> f64 {
    sum_of_squares(studies) / (studies.len() as f64 - 1.0)
}

fn sum_of_squares(studies: &[Study]) -> f64 {
    let mean = studies.iter().map(|s| s.value).sum::<f64>() / studies.len() as f64;
    studies.iter().map(|s| (s.value - mean).powi(2)).sum()
}

fn dersimonian_laird(studies: &[Study]) -> f64 {
    let w = Weighted::at(studies, 0.0);
    ((w.q - (studies.len() as f64 - 1.0)) / (w.total - w.squares / w.total)).max(0.0)
}

fn sidik_jonkman(studies: &[Study]) -> f64 {
    let start = sum_of_squares(studies) / studies.len() as f64;
    if start == 0.0 {
        return 0.0;
    }
    let scaled: Vec<Study> = studies.iter().map(|s| Study { variance: s.variance / start, ..*s }).collect();
    Weighted::at(&scaled, 1.0).q / (studies.len() as f64 - 1.0)
}

/// tau^2 at which Q(tau^2), which falls with tau^2, equals `target`; 0 when Q is below it from the start.
pub(crate) fn tau2_where_q_is(studies: &[Study], target: f64) -> f64 {
    let excess = |tau2: f64| Weighted::at(studies, tau2).q - target;
    if excess(0.0) <= 0.0 {
        return 0.0;
    }
    let mut high = mean_variance(studies) + sum_of_squares(studies) / target.max(f64::MIN_POSITIVE);
    while excess(high) > 0.0 && high.is_finite() {
        high *= 2.0;
    }
    root::find(excess, (0.0, high), 1e-15 * high)
}

/// ln likelihood (restricted or not) less constants: -1/2 [sum ln(v + tau^2) + Q (+ ln sum w)].
fn log_likelihood(studies: &[Study], tau2: f64, restricted: bool) -> f64 {
    let w = Weighted::at(studies, tau2);
    let logs: f64 = studies.iter().map(|s| (s.variance + tau2).ln()).sum();
    -0.5 * (logs + w.q + if restricted { w.total.ln() } else { 0.0 })
}

/// Twice its derivative: -sum w + sum w^2 (y - mu)^2 (+ sum w^2 / sum w).
fn score(studies: &[Study], tau2: f64, restricted: bool) -> f64 {
    let w = Weighted::at(studies, tau2);
    w.q2 - w.total + if restricted { w.squares / w.total } else { 0.0 }
}

/// The highest point of the likelihood over tau^2 >= 0: the best of a logarithmic grid, then the exact root of the score
/// between its neighbours. The grid guards against a second, lower peak.
fn maximise(studies: &[Study], restricted: bool) -> f64 {
    let scale = mean_variance(studies) + sum_of_squares(studies);
    let grid: Vec<f64> =
        std::iter::once(0.0).chain((0..=120).map(|i| scale * 10f64.powf(f64::from(i) / 10.0 - 10.0))).collect();
    let height = |i: &usize| log_likelihood(studies, grid[*i], restricted);
    let best = (0..grid.len()).max_by(|i, j| height(i).total_cmp(&height(j))).unwrap_or(0);
    let low = grid[best.saturating_sub(1)];
    let high = grid[(best + 1).min(grid.len() - 1)];
    let slope = |tau2: f64| score(studies, tau2, restricted);
    if slope(low) <= 0.0 {
        return low;
    }
    root::find(slope, (low, high), 1e-15 * high)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nine laboratories, Kacker 2004 (Metrologia 41:132): Paule-Mandel tau 0.8399, Hedges-Olkin ("CA") tau 1.1837.
    const KACKER: [(f64, f64); 9] = [
        (61.00, 0.2025),
        (61.40, 1.21),
        (62.21, 0.09),
        (62.30, 0.2025),
        (62.34, 0.3844),
        (62.60, 0.5625),
        (62.70, 0.0676),
        (62.84, 0.0225),
        (65.90, 1.8225),
    ];

    fn kacker() -> Vec<Study> {
        KACKER.iter().map(|&(value, variance)| Study { value, variance }).collect()
    }

    #[test]
    fn kacker_2004() {
        let studies = kacker();
        assert!((Tau2Method::PauleMandel.estimate(&studies).sqrt() - 0.8399).abs() < 5e-5);
        assert!((Tau2Method::HedgesOlkin.estimate(&studies).sqrt() - 1.1837).abs() < 5e-5);
        // The paper's 0.5359 is a digit off; R metafor gives 0.288049246973751.
        assert!((Tau2Method::DerSimonianLaird.estimate(&studies) - 0.288_049_246_97).abs() < 1e-10);
    }

    #[test]
    fn likelihoods_are_at_their_peak() {
        let studies = kacker();
        for (method, restricted) in [(Tau2Method::Reml, true), (Tau2Method::MaximumLikelihood, false)] {
            let tau2 = method.estimate(&studies);
            assert!(score(&studies, tau2, restricted).abs() < 1e-9);
            for other in [0.9 * tau2, 1.1 * tau2, 0.0, 5.0] {
                assert!(log_likelihood(&studies, other, restricted) < log_likelihood(&studies, tau2, restricted));
            }
        }
    }

    #[test]
    fn equal_values_give_no_variance_between() {
        let studies = [Study { value: 1.0, variance: 0.5 }, Study { value: 1.0, variance: 0.1 }];
        for method in
            [Tau2Method::Reml, Tau2Method::PauleMandel, Tau2Method::DerSimonianLaird, Tau2Method::SidikJonkman]
        {
            assert!(method.estimate(&studies) < 1e-9, "{method:?}");
        }
    }
}
