//! The combined mean, its interval, and the prediction interval for the next trial.

use crate::contrast::two_sided_p;
use crate::dist::t_quantile;
use crate::estimate::Interval;
use crate::pooling::{PoolError, Study, Tau2Method, Weighted, check};
use serde::Serialize;

/// How the standard uncertainty and the interval of the combined mean are formed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum IntervalMethod {
    /// u^2 = 1 / sum w, normal quantile. Too narrow for few trials: below 90 % for a nominal 95 % at k = 3.
    Normal,
    /// u^2 = q / sum w with q = sum w (y - mu)^2 / (k - 1), t with k - 1 degrees of freedom (Hartung & Knapp 2001,
    /// Stat. Med. 20:3875; Sidik & Jonkman 2002, Stat. Med. 21:3153).
    HartungKnapp,
    /// As before, but q is at least 1 (Roever, Knapp & Friede 2015, BMC Med. Res. Methodol. 15:99): never narrower than
    /// u^2 = 1 / sum w, on the wide side when the trials agree.
    HartungKnappAtLeastOne,
    /// No weights: u^2 = s^2 / k of the values themselves, t with k - 1 degrees of freedom. Keeps its level without
    /// any estimate of tau^2.
    Unweighted,
}

/// A combined mean.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Pooled {
    /// Number of estimates combined.
    pub k: usize,
    /// mu, the combined mean.
    pub mean: f64,
    /// Standard uncertainty of the mean.
    pub std_uncertainty: f64,
    /// Degrees of freedom; infinite for the normal form.
    pub dof: f64,
    /// Interval of the mean.
    pub interval: Interval,
    /// tau^2, variance between trials; absent when one estimate cannot show it.
    pub tau2: Option<f64>,
    /// Estimator of tau^2.
    pub tau2_method: Tau2Method,
    /// How the interval was formed.
    pub interval_method: IntervalMethod,
}

impl Pooled {
    /// Two-sided p of "the mean is zero".
    pub fn p_value(&self) -> f64 {
        two_sided_p(self.mean, self.std_uncertainty, self.dof)
    }

    /// Interval for the true value of the next trial: mu -/+ t(`dof`) sqrt(tau^2 + u^2). Higgins, Thompson & Spiegelhalter
    /// 2009 (J. R. Statist. Soc. A 172:137) use k - 2 degrees of freedom with the normal u; with a Hartung-Knapp u it is
    /// k - 1 (Partlett & Riley 2017, Stat. Med. 36:301).
    pub fn prediction_interval(&self, dof: f64, level: f64) -> Option<Interval> {
        let spread = (self.tau2? + self.std_uncertainty.powi(2)).sqrt();
        let half = t_quantile(0.5 + 0.5 * level, dof) * spread;
        (dof > 0.0).then_some(Interval { lower: self.mean - half, upper: self.mean + half, level })
    }
}

/// Combines estimates by the methods named.
///
/// # Errors
/// [`PoolError`] for fewer than two estimates, or for variances that are no weights.
pub fn pool(studies: &[Study], tau2: Tau2Method, interval: IntervalMethod, level: f64) -> Result<Pooled, PoolError> {
    check(studies)?;
    if studies.len() < 2 {
        return Err(PoolError::OneStudy);
    }
    let between = tau2.estimate(studies);
    let (mean, u, dof) = mean_and_uncertainty(studies, between, interval);
    Ok(Pooled {
        k: studies.len(),
        mean,
        std_uncertainty: u,
        dof,
        interval: around(mean, u, dof, level),
        tau2: Some(between),
        tau2_method: tau2,
        interval_method: interval,
    })
}

/// Combines estimates as well as their number allows.
///
/// * k >= 3: REML and Hartung-Knapp-Sidik-Jonkman.
/// * k = 2: the unweighted mean with t(1). Two values leave one degree of freedom for tau^2, whose estimate is then often
///   zero, and weights built on it make any interval too narrow; the plain mean keeps its level at the price of width.
/// * k = 1: the estimate with its own uncertainty, taken as known; nothing is said of how trials differ.
///
/// # Errors
/// [`PoolError`] without estimates, or for variances that are no weights.
pub fn combine(studies: &[Study], level: f64) -> Result<Pooled, PoolError> {
    match studies {
        [one] => single(one, level),
        [_, _] => pool(studies, Tau2Method::Reml, IntervalMethod::Unweighted, level),
        _ => pool(studies, Tau2Method::Reml, IntervalMethod::HartungKnapp, level),
    }
}

fn single(study: &Study, level: f64) -> Result<Pooled, PoolError> {
    check(std::slice::from_ref(study))?;
    let u = study.variance.sqrt();
    Ok(Pooled {
        k: 1,
        mean: study.value,
        std_uncertainty: u,
        dof: f64::INFINITY,
        interval: around(study.value, u, f64::INFINITY, level),
        tau2: None,
        tau2_method: Tau2Method::Fixed,
        interval_method: IntervalMethod::Normal,
    })
}

/// Mean, standard uncertainty and degrees of freedom at a given tau^2.
fn mean_and_uncertainty(studies: &[Study], tau2: f64, method: IntervalMethod) -> (f64, f64, f64) {
    let dof = studies.len() as f64 - 1.0;
    let w = Weighted::at(studies, tau2);
    let q = w.q / dof;
    match method {
        IntervalMethod::Normal => (w.mean, (1.0 / w.total).sqrt(), f64::INFINITY),
        IntervalMethod::HartungKnapp => (w.mean, (q / w.total).sqrt(), dof),
        IntervalMethod::HartungKnappAtLeastOne => (w.mean, (q.max(1.0) / w.total).sqrt(), dof),
        IntervalMethod::Unweighted => {
            let equal: Vec<Study> = studies.iter().map(|s| Study { variance: 1.0, ..*s }).collect();
            mean_and_uncertainty(&equal, 0.0, IntervalMethod::HartungKnapp)
        }
    }
}

fn around(mean: f64, u: f64, dof: f64, level: f64) -> Interval {
    let half = t_quantile(0.5 + 0.5 * level, dof) * u;
    Interval { lower: mean - half, upper: mean + half, level }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::group::Summary;

    fn studies(variances: [f64; 4]) -> Vec<Study> {
        [3.1, 2.7, 3.6, 2.2].iter().zip(variances).map(|(&value, variance)| Study { value, variance }).collect()
    }

    /// With equal variances every method gives the plain mean and Hartung-Knapp is the ordinary t interval: exact.
    #[test]
    fn equal_variances_give_the_ordinary_t_interval() {
        let s = studies([0.04; 4]);
        let plain = Summary::of(&[3.1, 2.7, 3.6, 2.2]).unwrap().mean_interval(0.95).unwrap();
        for method in [Tau2Method::Reml, Tau2Method::PauleMandel, Tau2Method::Fixed, Tau2Method::SidikJonkman] {
            let p = pool(&s, method, IntervalMethod::HartungKnapp, 0.95).unwrap();
            assert!((p.interval.lower - plain.lower).abs() < 1e-12 && (p.interval.upper - plain.upper).abs() < 1e-12);
        }
    }

    /// Paule-Mandel makes Q = k - 1, hence q = 1 and both forms of the uncertainty agree: exact.
    #[test]
    fn paule_mandel_makes_the_two_uncertainties_agree() {
        let s = studies([0.01, 0.04, 0.02, 0.09]);
        let u = |m| pool(&s, Tau2Method::PauleMandel, m, 0.95).unwrap().std_uncertainty;
        assert!((u(IntervalMethod::Normal) / u(IntervalMethod::HartungKnapp) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn two_and_one_fall_back_as_documented() {
        let s = studies([0.01, 0.04, 0.02, 0.09]);
        let two = combine(&s[..2], 0.95).unwrap();
        assert!((two.mean - 2.9).abs() < 1e-12 && (two.dof - 1.0).abs() < 1e-12);
        assert!((two.std_uncertainty - 0.2).abs() < 1e-12);
        let one = combine(&s[..1], 0.95).unwrap();
        assert!(one.tau2.is_none() && one.prediction_interval(1.0, 0.95).is_none());
        assert_eq!(combine(&[], 0.95), Err(PoolError::Empty));
        assert_eq!(combine(&[Study { value: 1.0, variance: 0.0 }], 0.95), Err(PoolError::BadVariance));
    }
}
