//! An orthonormal basis of the Jacobian's columns, and the sums over neighbours that a first-order autoregression needs.

use crate::fit_error::FitError;
use nalgebra::{DMatrix, DVector};

/// J = Q R with unit-length columns scaled back: `back` turns a covariance of the coordinates Q'y into one of the
/// parameters, Cov = back C back'.
pub(super) struct Basis {
    pub q: DMatrix<f64>,
    pub back: DMatrix<f64>,
}

fn check(jacobian: &DMatrix<f64>, residuals: &[f64]) -> Result<(), FitError> {
    let (n, p) = jacobian.shape();
    if residuals.len() != n {
        return Err(FitError::Length { what: "residuals", got: residuals.len(), want: n });
    }
    if p == 0 || n < p {
        return Err(FitError::TooFew { observations: n, parameters: p });
    }
    if !residuals.iter().chain(jacobian.iter()).all(|v| v.is_finite()) {
        return Err(FitError::NotUsable("the Jacobian or a residual"));
    }
    Ok(())
}

impl Basis {
    pub(super) fn new(jacobian: &DMatrix<f64>, residuals: &[f64]) -> Result<Self, FitError> {
        check(jacobian, residuals)?;
        let p = jacobian.ncols();
        let scale: Vec<f64> = jacobian.column_iter().map(|c| c.norm()).collect();
        let mut scaled = jacobian.clone();
        scaled.column_iter_mut().zip(&scale).for_each(|(mut c, s)| c /= s.max(f64::MIN_POSITIVE));
        let (q, r) = scaled.qr().unpack();
        let rank = r.diagonal().iter().filter(|d| d.abs() > 1e-12).count();
        let inverse = r.solve_upper_triangular(&DMatrix::identity(p, p));
        let (Some(inverse), true) = (inverse, rank == p) else {
            return Err(FitError::RankDeficient { rank, parameters: p });
        };
        let unscale = DMatrix::from_diagonal(&DVector::from_iterator(p, scale.iter().map(|s| 1.0 / s)));
        Ok(Self { q, back: unscale * inverse })
    }

    /// Covariance of the parameters for a covariance of the coordinates.
    pub(super) fn covariance(&self, coordinates: &DMatrix<f64>) -> DMatrix<f64> {
        &self.back * coordinates * self.back.transpose()
    }

    /// Q' Omega Q for Omega_ij = rho^|i-j|, by two running sums: a_i = q_i + rho a_{i-1} gathers all that came before.
    pub(super) fn middle(&self, rho: f64) -> DMatrix<f64> {
        let (n, p) = self.q.shape();
        let mut gathered = vec![0.0; p];
        let mut sum = DMatrix::zeros(p, p);
        for i in 0..n {
            for k in 0..p {
                for j in 0..p {
                    sum[(j, k)] += self.q[(i, j)] * gathered[k] * rho;
                }
            }
            for (k, g) in gathered.iter_mut().enumerate() {
                *g = self.q[(i, k)] + rho * *g;
            }
        }
        &sum + sum.transpose() + DMatrix::identity(p, p)
    }
}
