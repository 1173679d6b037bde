//! The mixed model fitted: fixed effects, variances, and what tests need of them.

use super::coordinates::{gather, whitened};
use super::error::MixedError;
use super::likelihood::{Model, Moments};
use super::maximise::settle;
use crate::design::rank;
use nalgebra::{DMatrix, DVector};

/// A fitted mixed model. A variance between blocks that comes out as zero is left out of all that follows; the fit is then
/// ordinary least squares.
#[derive(Debug, Clone)]
pub struct MixedFit {
    /// Fixed effects, in the order of the design's columns.
    pub beta: Vec<f64>,
    /// Residual variance.
    pub residual_variance: f64,
    /// Variance between blocks; zero without blocks or where it was left out.
    pub block_variance: f64,
    /// -2 ln restricted likelihood at the estimates, with all constants.
    pub deviance: f64,
    /// Phi, covariance of the fixed effects were the variances known.
    pub covariance: DMatrix<f64>,
    /// X' V^-1 G_i V^-1 X.
    pub(super) xgx: Vec<DMatrix<f64>>,
    /// Phi_A, covariance of the fixed effects with that of the variances allowed for.
    pub(super) adjusted_covariance: DMatrix<f64>,
    /// W, covariance of the variances: inverse of their expected information.
    pub(super) variance_covariance: DMatrix<f64>,
    /// V^-1 X, one row an observation.
    whitened: DMatrix<f64>,
}

impl MixedFit {
    /// Fits `y` on `design` (one row an observation) with a random intercept for each level of `blocks` (the level of each
    /// observation), or by least squares without.
    ///
    /// # Errors
    /// [`MixedError`] when sizes differ, the design is rank-deficient or leaves no scatter, or the iteration does not settle.
    pub fn new(y: &[f64], design: &DMatrix<f64>, blocks: Option<&[usize]>) -> Result<Self, MixedError> {
        check(y.len(), design, blocks)?;
        let model = Model {
            observations: y.len(),
            parameters: design.ncols(),
            variances: if blocks.is_some() { 2 } else { 1 },
            sets: gather(y, design, blocks),
        };
        let found = settle(model, y)?;
        let moments = Moments::new(&found.model, &found.state);
        let information = moments.information(&found.state.covariance);
        let variance_covariance = information.cholesky().ok_or(MixedError::NotConverged)?.inverse();
        let adjusted_covariance = moments.adjusted(&found.state.covariance, &variance_covariance);
        Ok(Self {
            beta: found.state.beta.iter().copied().collect(),
            residual_variance: found.residual,
            block_variance: found.between,
            deviance: found.state.deviance,
            covariance: found.state.covariance,
            xgx: moments.xgx,
            variance_covariance,
            adjusted_covariance,
            whitened: whitened(design, blocks, found.residual, found.between),
        })
    }

    /// Weights w = V^-1 X Phi l of the observations in l' beta: sum of w y is l' beta, so an error that observations share
    /// enters it as the sum of w times their parts. Empty when `l` has the wrong length.
    pub fn weights(&self, l: &[f64]) -> Vec<f64> {
        if l.len() != self.beta.len() {
            return Vec::new();
        }
        let direction = &self.covariance * DVector::from_column_slice(l);
        (&self.whitened * direction).iter().copied().collect()
    }

    /// Variance of a single observation, the sum of both variances, with its degrees of freedom 2 v^2 / (1' W 1), W the
    /// covariance of the variances (Satterthwaite 1946, Biometrics Bull. 2:110).
    pub fn total_variance(&self) -> (f64, f64) {
        let variance = self.residual_variance + self.block_variance;
        (variance, 2.0 * variance * variance / self.variance_covariance.sum())
    }
}

fn check(n: usize, design: &DMatrix<f64>, blocks: Option<&[usize]>) -> Result<(), MixedError> {
    if design.nrows() != n || blocks.is_some_and(|codes| codes.len() != n) {
        return Err(MixedError::Sizes);
    }
    if n <= design.ncols() || rank(design) < design.ncols() {
        return Err(MixedError::RankDeficient);
    }
    Ok(())
}
