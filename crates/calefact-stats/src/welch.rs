//! Two means compared without assuming equal variances, as a difference or as a ratio.
//!
//! u^2 = u_a^2 + u_b^2 with effective degrees of freedom (Welch 1947, Biometrika 34:28). Errors that both means share
//! cancel part by part ([`between_groups`]). The pooled test is here for comparison with published cases.

use crate::contrast::{Contrast, ContrastKind, cautious_dof, effective_dof};
use crate::dist::t_quantile;
use crate::estimate::Interval;
use crate::group::{GroupMean, Summary};
use crate::uncertain_value::{ErrorSources, UncertainValue};
use serde::Serialize;
use thiserror::Error;

/// Why two groups cannot be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CompareError {
    /// A single trial shows no scatter, so nothing can be said of chance.
    #[error("a group of one trial shows no scatter; repeat it")]
    OneTrial,
    /// A ratio on the logarithm needs both means above zero.
    #[error("a ratio needs both means above zero")]
    NotPositive,
}

/// A mean with its standard uncertainty and degrees of freedom.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Mean {
    /// Best estimate.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// Degrees of freedom of `u`; may be infinite.
    pub dof: f64,
}

impl Mean {
    /// Mean of a sample, u = s / sqrt(n), n - 1 degrees of freedom.
    ///
    /// # Errors
    /// [`CompareError::OneTrial`] without scatter.
    pub fn of(summary: &Summary) -> Result<Self, CompareError> {
        let (Some(scatter), Some(u)) = (summary.scatter, summary.std_error()) else {
            return Err(CompareError::OneTrial);
        };
        Ok(Self { value: summary.mean, u, dof: scatter.dof })
    }
}

/// a - b of independent means: t = (a - b) / sqrt(u_a^2 + u_b^2).
pub fn difference(a: Mean, b: Mean, level: f64) -> Contrast {
    let dof = effective_dof([(a.u, a.dof), (b.u, b.dof)]);
    Contrast::new(ContrastKind::Difference, a.value - b.value, a.u.hypot(b.u), dof, level)
}

/// a / b of independent means, first order on the logarithm: u^2(ln R) = (u_a / a)^2 + (u_b / b)^2.
///
/// # Errors
/// [`CompareError::NotPositive`] unless both means are above zero.
pub fn log_ratio(a: Mean, b: Mean, level: f64) -> Result<Contrast, CompareError> {
    if a.value <= 0.0 || b.value <= 0.0 {
        return Err(CompareError::NotPositive);
    }
    let (ra, rb) = (a.u / a.value, b.u / b.value);
    let dof = effective_dof([(ra, a.dof), (rb, b.dof)]);
    Ok(Contrast::new(ContrastKind::Ratio, (a.value / b.value).ln(), ra.hypot(rb), dof, level))
}

/// a - b with one common variance, n_a + n_b - 2 degrees of freedom (Student's two-sample test). One group may hold a
/// single trial; its variance is then taken from the other.
///
/// # Errors
/// [`CompareError::OneTrial`] when neither group has scatter.
pub fn pooled_difference(a: &Summary, b: &Summary, level: f64) -> Result<Contrast, CompareError> {
    let (sd, dof) = pooled_sd(&[*a, *b]).ok_or(CompareError::OneTrial)?;
    let u = sd * (1.0 / a.n as f64 + 1.0 / b.n as f64).sqrt();
    Ok(Contrast::new(ContrastKind::Difference, a.mean - b.mean, u, dof, level))
}

/// Common standard deviation of groups, sqrt(sum (n_i - 1) s_i^2 / sum (n_i - 1)), and its degrees of freedom.
pub fn pooled_sd(groups: &[Summary]) -> Option<(f64, f64)> {
    let squares: f64 = groups.iter().filter_map(|g| g.scatter).map(|s| s.dof * s.sd * s.sd).sum();
    let dof: f64 = groups.iter().filter_map(|g| g.scatter).map(|s| s.dof).sum();
    (dof > 0.0).then(|| ((squares / dof).sqrt(), dof))
}

/// Two group means compared part by part: an error under the same source in both cancels where it should.
///
/// Difference: part = p_a - p_b. Ratio: part of ln R = p_a / a - p_b / b, to first order. Degrees of freedom by
/// [`cautious_dof`] over the sources that remain; Welch's when the shared ones cancel.
///
/// # Errors
/// [`CompareError::OneTrial`] when either group has no scatter, [`CompareError::NotPositive`] for a ratio of means that are
/// not both above zero.
pub fn between_groups(
    kind: ContrastKind,
    a: &GroupMean,
    b: &GroupMean,
    book: &ErrorSources,
    level: f64,
) -> Result<Contrast, CompareError> {
    if a.scatter.is_none() || b.scatter.is_none() {
        return Err(CompareError::OneTrial);
    }
    let (effect, traced) = match kind {
        ContrastKind::Difference => {
            let d = UncertainValue::combine(&[(1.0, &a.mean), (-1.0, &b.mean)]);
            (d.value, d)
        }
        ContrastKind::Ratio if a.mean.value > 0.0 && b.mean.value > 0.0 => {
            let weights = [(1.0 / a.mean.value, &a.mean), (-1.0 / b.mean.value, &b.mean)];
            ((a.mean.value / b.mean.value).ln(), UncertainValue::combine(&weights))
        }
        ContrastKind::Ratio => return Err(CompareError::NotPositive),
    };
    let dof = cautious_dof(traced.parts.iter().map(|(s, p)| (*p, a.source_dof(s, book).min(b.source_dof(s, book)))));
    Ok(Contrast::new(kind, effect, traced.std_uncertainty(), dof, level))
}

/// Set of ratios a / b not rejected at `level` (Fieller 1954, J. R. Statist. Soc. B 16:175).
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fieller {
    /// An ordinary interval: the denominator differs from zero.
    Bounded(Interval),
    /// The denominator may be zero, so arbitrarily large ratios of either sign cannot be ruled out.
    Unbounded,
}

/// Fieller's interval of a / b for estimates with covariance `covariance` and a common `dof`.
///
/// With g = (t u_b / b)^2, t the quantile at `level`, the ends are the roots r of
/// (a - r b)^2 = t^2 (u_a^2 - 2 r cov + r^2 u_b^2); they bound an interval when g < 1.
pub fn fieller(a: Mean, b: Mean, covariance: f64, dof: f64, level: f64) -> Fieller {
    let t2 = t_quantile(0.5 + 0.5 * level, dof).powi(2);
    let square = b.value * b.value - t2 * b.u * b.u;
    let cross = a.value * b.value - t2 * covariance;
    let constant = a.value * a.value - t2 * a.u * a.u;
    if square <= 0.0 {
        return Fieller::Unbounded;
    }
    let root = (cross * cross - square * constant).max(0.0).sqrt();
    Fieller::Bounded(Interval { lower: (cross - root) / square, upper: (cross + root) / square, level })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::uncertain_value::{Shape, SourceInfo};

    /// NIST/SEMATECH e-Handbook 1.3.5.3, AUTO83B, Welch form as printed by Boost's statistics examples: t = -12.946,
    /// 136.87 degrees of freedom, p = 1.571e-25. Means and standard deviations to the printed digits.
    #[test]
    fn auto83b() {
        let us = Summary::from_parts(249, 20.144_58, 6.414_70);
        let japan = Summary::from_parts(79, 30.481_01, 6.107_71);
        let c = difference(Mean::of(&us).unwrap(), Mean::of(&japan).unwrap(), 0.95);
        assert!((c.statistic() + 12.946).abs() < 5e-4 && (c.dof - 136.87).abs() < 6e-3);
        assert!((c.p_value / 1.571e-25 - 1.0).abs() < 1e-3);
        let p = pooled_difference(&us, &japan, 0.95).unwrap();
        assert!((p.statistic() + 12.620_59).abs() < 2e-5 && (p.dof - 326.0).abs() < 1e-9);
    }

    fn with_instrument(mean: f64, sd: f64, n: usize, gain: f64, offset: f64, name: &str) -> (GroupMean, ErrorSources) {
        let info = |dof| SourceInfo { label: String::new(), shared: true, dof, shape: Shape::Normal };
        let book = ErrorSources::from([("gain".into(), info(f64::INFINITY)), ("offset".into(), info(f64::INFINITY))]);
        let summary = Summary::from_parts(n, mean, sd);
        let traced = UncertainValue::exact(mean)
            .with("gain", gain * mean)
            .with("offset", offset)
            .with(name, summary.std_error().unwrap());
        let dof = n as f64 - 1.0;
        let group = GroupMean { summary, mean: traced, dof, scatter: Some((name.into(), info(dof))) };
        (group, book)
    }

    /// Closed forms for a shared gain and offset (JCGM 100:2008, 5.2 and F.1.2.3), A = 1.250, s = .050, n = 5;
    /// B = 1.000, s = .040, n = 3; u_g = .020, u_b = .030; also found with the Python package `uncertainties`.
    #[test]
    fn shared_errors_cancel_where_they_should() {
        for (gain, offset, difference, ratio) in [
            (0.0, 0.03, 0.032_145_502_54, 0.037_277_115_41),
            (0.02, 0.0, 0.032_532_035_49, 0.036_514_837_17),
            (0.02, 0.03, 0.032_532_035_49, 0.037_277_115_41),
        ] {
            let (a, book) = with_instrument(1.25, 0.05, 5, gain, offset, "scatter:a");
            let (b, _) = with_instrument(1.0, 0.04, 3, gain, offset, "scatter:b");
            let d = between_groups(ContrastKind::Difference, &a, &b, &book, 0.95).unwrap();
            let r = between_groups(ContrastKind::Ratio, &a, &b, &book, 0.95).unwrap();
            assert!((d.std_uncertainty() - difference).abs() < 1e-11);
            assert!((r.std_uncertainty() - ratio).abs() < 1e-11);
        }
    }

    /// The same means with pooled degrees of freedom 6: Fieller [1.15770033, 1.35332493], log-ratio t
    /// [1.15625899, 1.35134084] (recomputed from the formulas with 40 digits elsewhere).
    #[test]
    fn fieller_and_log_ratio_intervals() {
        let pooled = pooled_sd(&[Summary::from_parts(5, 1.25, 0.05), Summary::from_parts(3, 1.0, 0.04)]);
        let (sd, dof) = pooled.unwrap();
        let a = Mean { value: 1.25, u: sd / 5f64.sqrt(), dof };
        let b = Mean { value: 1.0, u: sd / 3f64.sqrt(), dof };
        let Fieller::Bounded(i) = fieller(a, b, 0.0, dof, 0.95) else { panic!("bounded") };
        assert!((i.lower - 1.157_700_33).abs() < 1e-8 && (i.upper - 1.353_324_93).abs() < 1e-8, "{i:?}");
        let u = (a.u / a.value).hypot(b.u / b.value);
        let c = Contrast::new(ContrastKind::Ratio, 1.25f64.ln(), u, dof, 0.95);
        assert!((c.interval.lower - 1.156_258_99).abs() < 1e-8, "{c:?}");
        assert!((c.interval.upper - 1.351_340_84).abs() < 1e-8, "{c:?}");
    }

    #[test]
    fn what_cannot_be_compared_says_so() {
        let one = Summary::from_parts(1, 2.0, 0.0);
        assert_eq!(Mean::of(&one), Err(CompareError::OneTrial));
        let zero = Mean { value: 0.1, u: 1.0, dof: 3.0 };
        assert_eq!(fieller(zero, zero, 0.0, 3.0, 0.95), Fieller::Unbounded);
        let negative = Mean { value: -1.0, u: 1.0, dof: 3.0 };
        assert_eq!(log_ratio(negative, zero, 0.95), Err(CompareError::NotPositive));
    }
}
