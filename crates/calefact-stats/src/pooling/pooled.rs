//! The combined mean and its uncertainty.

use super::study::{PoolError, Study, Weighted, check};
use super::tau2::Tau2Method;

/// How the weights and the standard uncertainty of the combined mean are formed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IntervalMethod {
    /// Weights 1 / (v + tau^2); u^2 = q / sum w with q = sum w (y - mu)^2 / (k - 1), t with k - 1 degrees of freedom
    /// (Hartung & Knapp 2001, Stat. Med. 20:3875; Sidik & Jonkman 2002, Stat. Med. 21:3153).
    HartungKnapp,
    /// Equal weights: u^2 = s^2 / k of the values themselves, t with k - 1 degrees of freedom. Keeps its coverage without
    /// any estimate of tau^2.
    Unweighted,
}

/// A combined mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Pooled {
    /// mu, the combined mean.
    pub mean: f64,
    /// Standard uncertainty of the mean.
    pub std_uncertainty: f64,
    /// Degrees of freedom, k - 1.
    pub dof: f64,
    /// tau^2, variance between trials.
    pub tau2: f64,
    /// Share of each estimate in the mean; they sum to one.
    pub weights: Vec<f64>,
}

/// Combines estimates by the methods named.
///
/// # Errors
/// [`PoolError`] for fewer than two estimates, or for variances that are no weights.
pub fn pool(studies: &[Study], tau2: Tau2Method, interval: IntervalMethod) -> Result<Pooled, PoolError> {
    check(studies)?;
    let tau2 = tau2.estimate(studies);
    let variance = |s: &Study| if interval == IntervalMethod::Unweighted { 1.0 } else { s.variance + tau2 };
    let weighed: Vec<Study> = studies.iter().map(|s| Study { variance: variance(s), ..*s }).collect();
    let w = Weighted::at(&weighed, 0.0);
    let dof = studies.len() as f64 - 1.0;
    Ok(Pooled {
        mean: w.mean,
        std_uncertainty: (w.q / dof / w.total).sqrt(),
        dof,
        tau2,
        weights: weighed.iter().map(|s| 1.0 / s.variance / w.total).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::group::Summary;

    fn studies(variances: [f64; 4]) -> Vec<Study> {
        [3.1, 2.7, 3.6, 2.2].iter().zip(variances).map(|(&value, variance)| Study { value, variance }).collect()
    }

    /// With equal variances the combination is the plain mean with s / sqrt(k): exact.
    #[test]
    fn equal_variances_give_the_plain_mean() {
        let plain = Summary::from_values(&[3.1, 2.7, 3.6, 2.2]).unwrap();
        for method in [Tau2Method::Reml, Tau2Method::PauleMandel] {
            let p = pool(&studies([0.04; 4]), method, IntervalMethod::HartungKnapp).unwrap();
            assert!((p.mean - plain.mean).abs() < 1e-12 && (p.dof - 3.0).abs() < 1e-12);
            assert!((p.std_uncertainty - plain.std_error().unwrap()).abs() < 1e-12);
        }
    }

    /// Paule-Mandel makes Q = k - 1, hence u^2 = 1 / sum w: exact.
    #[test]
    fn paule_mandel_gives_the_uncertainty_of_known_weights() {
        let s = studies([0.01, 0.04, 0.02, 0.09]);
        let p = pool(&s, Tau2Method::PauleMandel, IntervalMethod::HartungKnapp).unwrap();
        let total: f64 = s.iter().map(|s| 1.0 / (s.variance + p.tau2)).sum();
        assert!((p.std_uncertainty * p.std_uncertainty * total - 1.0).abs() < 1e-12);
        for (s, weight) in s.iter().zip(&p.weights) {
            assert!((weight * total * (s.variance + p.tau2) - 1.0).abs() < 1e-12);
        }
    }

    /// By hand: 3.1 and 2.7 have mean 2.9 and s / sqrt 2 = 0.2.
    #[test]
    fn two_trials_without_weights() {
        let s = studies([0.01, 0.04, 0.02, 0.09]);
        let two = pool(&s[..2], Tau2Method::Reml, IntervalMethod::Unweighted).unwrap();
        assert!((two.mean - 2.9).abs() < 1e-12 && (two.dof - 1.0).abs() < 1e-12);
        assert!((two.std_uncertainty - 0.2).abs() < 1e-12 && two.weights == [0.5, 0.5]);
    }

    #[test]
    fn some_estimates_cannot_be_combined() {
        let run = |s: &[Study]| pool(s, Tau2Method::Reml, IntervalMethod::HartungKnapp);
        let s = studies([0.01, 0.04, 0.02, 0.09]);
        assert_eq!(run(&s[..1]), Err(PoolError::TooFew));
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(run(&studies([0.01, bad, 0.02, 0.09])), Err(PoolError::BadVariance), "{bad}");
        }
        let lost = [s[0], Study { value: f64::NAN, variance: 1.0 }];
        assert_eq!(run(&lost), Err(PoolError::BadVariance));
    }
}
