//! How much the trials differ beyond their own errors: Q, the two forms of I^2, and an interval for tau^2.

use crate::estimate::Interval;
use crate::pooling::tau2::tau2_where_q_is;
use crate::pooling::{PoolError, Study, Weighted, check};
use serde::Serialize;
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// Cochran's Q and what follows from it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Heterogeneity {
    /// Q = sum (y - mu_F)^2 / v, mu_F the weighted mean at tau^2 = 0.
    pub q: f64,
    /// k - 1.
    pub dof: f64,
    /// P(chi2 > Q): small when the trials differ by more than their own errors.
    pub p_value: f64,
    /// Share (0 to 1) of the spread beyond the trials' own errors by Q alone: max(0, (Q - dof) / Q)
    /// (Higgins & Thompson 2002, Stat. Med. 21:1539).
    pub i2_from_q: f64,
    /// Typical own variance (k - 1) sum w / ((sum w)^2 - sum w^2), w = 1 / v.
    pub typical_variance: f64,
}

impl Heterogeneity {
    /// Q and its relatives for at least two studies.
    ///
    /// # Errors
    /// [`PoolError`] for fewer, or for variances that are no weights.
    pub fn of(studies: &[Study]) -> Result<Self, PoolError> {
        check(studies)?;
        let dof = studies.len() as f64 - 1.0;
        let chi2 = ChiSquared::new(dof).map_err(|_| PoolError::OneStudy)?;
        let w = Weighted::at(studies, 0.0);
        let typical_variance = dof * w.total / (w.total * w.total - w.squares);
        let i2_from_q = if w.q > dof { (w.q - dof) / w.q } else { 0.0 };
        Ok(Self { q: w.q, dof, p_value: chi2.sf(w.q), i2_from_q, typical_variance })
    }

    /// The other I^2 (0 to 1): tau^2 / (tau^2 + typical variance); it follows the estimator of tau^2 and agrees with
    /// [`Self::i2_from_q`] only for DerSimonian-Laird.
    pub fn i2_from_tau2(&self, tau2: f64) -> f64 {
        tau2 / (tau2 + self.typical_variance)
    }

    /// H^2 = 1 + tau^2 / typical variance.
    pub fn h2(&self, tau2: f64) -> f64 {
        1.0 + tau2 / self.typical_variance
    }
}

/// Interval for tau^2 by the Q-profile method (Viechtbauer 2007, Stat. Med. 26:37): the values at which Q(tau^2) equals
/// the quantiles of chi2 with k - 1 degrees of freedom; an end is 0 when even Q(0) is smaller.
///
/// # Errors
/// [`PoolError`] for fewer than two studies, or for variances that are no weights.
pub fn q_profile(studies: &[Study], level: f64) -> Result<Interval, PoolError> {
    check(studies)?;
    let chi2 = ChiSquared::new(studies.len() as f64 - 1.0).map_err(|_| PoolError::OneStudy)?;
    let end = |p: f64| tau2_where_q_is(studies, chi2.inverse_cdf(p));
    Ok(Interval { lower: end(0.5 + 0.5 * level), upper: end(0.5 - 0.5 * level), level })
}
