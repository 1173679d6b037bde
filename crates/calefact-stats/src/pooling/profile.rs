//! Interval of the variance between trials.

use super::study::{PoolError, Study, check};
use super::tau2::tau2_where_q_is;
use crate::dist::chi2_quantile;
use crate::estimate::Interval;

/// Interval for tau^2 by the Q-profile method (Viechtbauer 2007, Stat. Med. 26:37): the values at which Q(tau^2) equals the
/// quantiles of chi2 with k - 1 degrees of freedom; an end is 0 when even Q(0) is smaller.
///
/// # Errors
/// [`PoolError`] for fewer than two studies, or for variances that are no weights.
pub fn tau2_interval(studies: &[Study], confidence: f64) -> Result<Interval, PoolError> {
    check(studies)?;
    let end = |p: f64| tau2_where_q_is(studies, chi2_quantile(p, studies.len() as f64 - 1.0));
    Ok(Interval { lower: end(0.5 + 0.5 * confidence), upper: end(0.5 - 0.5 * confidence), confidence })
}
