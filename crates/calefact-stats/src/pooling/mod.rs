//! Random-effects combination of estimates that each carry an uncertainty of their own.
//!
//! Model: y_i = mu + b_i + e_i, b_i of variance tau^2 between trials, e_i of known variance v_i within trial i. The
//! variance between trials is estimated in [`tau2`], heterogeneity described in [`heterogeneity`], the mean and its
//! intervals in [`pooled`], errors common to all trials carried through in [`traced`]. Means of equal weight, which need no
//! model, live in [`crate::group`].

pub mod heterogeneity;
pub mod pooled;
pub mod tau2;
pub mod traced;

pub use heterogeneity::Heterogeneity;
pub use pooled::{IntervalMethod, Pooled, combine, pool};
pub use tau2::Tau2Method;

use serde::Serialize;
use thiserror::Error;

/// One estimate to be combined.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Study {
    /// y, the estimate.
    pub value: f64,
    /// v, its own variance, above zero; errors common to several estimates are left out of it.
    pub variance: f64,
}

/// Why estimates cannot be combined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PoolError {
    /// Nothing to combine.
    #[error("there is no estimate to combine")]
    Empty,
    /// The method needs at least two estimates.
    #[error("a variance between trials needs at least two of them")]
    OneStudy,
    /// A variance is zero, negative or not a number.
    #[error("every estimate needs a finite variance above zero")]
    BadVariance,
}

/// Checks that there is something to combine and that every variance can be a weight.
pub(crate) fn check(studies: &[Study]) -> Result<(), PoolError> {
    let sound = |s: &Study| s.value.is_finite() && s.variance.is_finite() && s.variance > 0.0;
    match studies {
        [] => Err(PoolError::Empty),
        _ if !studies.iter().all(sound) => Err(PoolError::BadVariance),
        _ => Ok(()),
    }
}

/// Sums over weights w_i = 1 / (v_i + tau^2) that every formula here is made of.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Weighted {
    /// sum w.
    pub(crate) total: f64,
    /// sum w^2.
    pub(crate) squares: f64,
    /// sum w^3.
    pub(crate) cubes: f64,
    /// Weighted mean.
    pub(crate) mean: f64,
    /// sum w (y - mean)^2: the Q statistic at this tau^2.
    pub(crate) q: f64,
    /// sum w^2 (y - mean)^2.
    pub(crate) q2: f64,
}

impl Weighted {
    pub(crate) fn at(studies: &[Study], tau2: f64) -> Self {
        let weights = || studies.iter().map(move |s| (1.0 / (s.variance + tau2), s.value));
        let sum = |power: i32| weights().map(|(w, _)| w.powi(power)).sum::<f64>();
        let total = sum(1);
        let mean = weights().map(|(w, y)| w * y).sum::<f64>() / total;
        let spread = |power: i32| weights().map(|(w, y)| w.powi(power) * (y - mean).powi(2)).sum::<f64>();
        Self { total, squares: sum(2), cubes: sum(3), mean, q: spread(1), q2: spread(2) }
    }
}
