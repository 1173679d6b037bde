//! Errors in time order: a first-order autoregression and white noise.

use super::basis::Basis;
use libm::{exp, log, tanh};
use nalgebra::DMatrix;

/// Errors of variance s^2 with correlation (1 - white) rho^|i-j| between readings i and j.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Errors {
    /// atanh of rho, in which the likelihood is nearly quadratic.
    pub theta: f64,
    /// Share of the variance that is white.
    pub white: f64,
}

impl Errors {
    pub(super) fn rho(self) -> f64 {
        tanh(self.theta)
    }

    /// Q' Omega Q / s^2.
    pub(super) fn middle(self, basis: &Basis) -> DMatrix<f64> {
        let p = basis.q.ncols();
        basis.middle(self.rho()) * (1.0 - self.white) + DMatrix::identity(p, p) * self.white
    }

    /// Moved in theta and in the log odds of the white share; a share of nothing stays.
    pub(super) fn moved(self, theta: f64, odds: f64) -> Self {
        Self { theta: self.theta + theta, white: share(odds_of(self.white) + odds) }
    }
}

/// Log odds of a share.
pub(super) fn odds_of(share: f64) -> f64 {
    log(share / (1.0 - share))
}

/// Share of log odds.
pub(super) fn share(odds: f64) -> f64 {
    1.0 / (1.0 + exp(-odds))
}
