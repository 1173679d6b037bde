//! The estimates to be combined, and the weighted sums that every formula of the combination is made of.

use thiserror::Error;

/// One estimate to be combined.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Study {
    /// y, the estimate.
    pub value: f64,
    /// v, its own variance, above zero; errors common to several estimates are left out of it.
    pub variance: f64,
}

/// Why estimates cannot be combined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum PoolError {
    /// A variance between trials needs at least two of them.
    #[error("a variance between trials needs at least two of them")]
    TooFew,
    /// A variance is zero, negative or not a number.
    #[error("every estimate needs a finite variance above zero")]
    BadVariance,
}

/// Checks that there are two studies or more and that every variance can be a weight.
pub(super) fn check(studies: &[Study]) -> Result<(), PoolError> {
    let sound = |s: &Study| s.value.is_finite() && s.variance.is_finite() && s.variance > 0.0;
    match studies {
        [] | [_] => Err(PoolError::TooFew),
        _ if !studies.iter().all(sound) => Err(PoolError::BadVariance),
        _ => Ok(()),
    }
}

/// Sums over weights w_i = 1 / (v_i + tau^2).
#[derive(Debug, Clone, Copy)]
pub(super) struct Weighted {
    /// sum w.
    pub(super) total: f64,
    /// sum w^2.
    pub(super) squares: f64,
    /// Weighted mean.
    pub(super) mean: f64,
    /// sum w (y - mean)^2: the Q statistic at this tau^2.
    pub(super) q: f64,
    /// sum w^2 (y - mean)^2.
    pub(super) q2: f64,
}

impl Weighted {
    pub(super) fn at(studies: &[Study], tau2: f64) -> Self {
        let weight = |s: &Study| 1.0 / (s.variance + tau2);
        let sum = |term: &dyn Fn(&Study) -> f64| studies.iter().map(term).sum::<f64>();
        let total = sum(&weight);
        let mean = sum(&|s| weight(s) * s.value) / total;
        let square = |s: &Study| (s.value - mean) * (s.value - mean);
        Self {
            total,
            squares: sum(&|s| weight(s) * weight(s)),
            mean,
            q: sum(&|s| weight(s) * square(s)),
            q2: sum(&|s| weight(s) * weight(s) * square(s)),
        }
    }
}
