//! One covariance for readings in time order, few or many.

use super::basis::Basis;
use super::reml::Likelihood;
use super::satterthwaite::degrees_of_freedom;
use crate::fit_error::FitError;
use crate::univariate::mean;
use nalgebra::DMatrix;
use serde::Serialize;

/// How errors in time order hang together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum ErrorStructure {
    /// Not at all; Student's t.
    Independent,
    /// First-order autoregression and white noise by restricted maximum likelihood; Satterthwaite's t.
    Autoregressive,
}

/// A covariance with the degrees of freedom its intervals need.
#[derive(Debug, Clone, PartialEq)]
pub struct RobustCovariance {
    /// Covariance of the fitted parameters.
    pub covariance: DMatrix<f64>,
    /// Degrees of freedom for t intervals, parameter by parameter.
    pub dof: Vec<f64>,
    /// Structure of the errors it was found with.
    pub errors: ErrorStructure,
}

/// Fewer degrees of freedom than this cannot show a correlation; the classical covariance and a runs test must serve.
const FEW: usize = 30;
/// Longer series are first averaged in blocks down to between this many rows and twice as many.
const ROWS: usize = 200;

/// Covariance of least-squares parameters from the final Jacobian and the residuals in time order.
///
/// With fewer than 30 degrees of freedom: the classical s^2 (J'J)^-1 and n - p degrees of freedom. Otherwise the errors are
/// taken as a first-order autoregression plus white noise, Omega_ij = s^2 ((1 - w) rho^|i-j| + w [i = j]) with rho >= 0,
/// estimated by restricted maximum likelihood (w only where Akaike's criterion asks for it), and the covariance is (J'J)^-1 J' Omega J (J'J)^-1. The degrees of freedom
/// are Satterthwaite's. Of 400 readings or more, equal blocks are averaged first: the curve hardly moves within a block,
/// and only what the blocks hold of the white noise is lost. Smoother errors than these make the interval too wide, not
/// too narrow.
///
/// # Errors
/// [`FitError`] when lengths differ, values are not finite or the Jacobian is not of full rank.
pub fn robust_covariance(jacobian: &DMatrix<f64>, residuals: &[f64]) -> Result<RobustCovariance, FitError> {
    let (n, p) = jacobian.shape();
    if residuals.len() == n && n >= 2 * ROWS {
        let (j, e) = block_means(jacobian, residuals, n / ROWS);
        return correlated(&Basis::new(&j, &e)?, &e);
    }
    let basis = Basis::new(jacobian, residuals)?;
    if n >= p + FEW {
        return correlated(&basis, residuals);
    }
    let dof = (n - p) as f64;
    let variance = if n > p { residuals.iter().map(|e| e * e).sum::<f64>() / dof } else { f64::NAN };
    Ok(RobustCovariance {
        covariance: basis.covariance(&(DMatrix::identity(p, p) * variance)),
        dof: vec![dof; p],
        errors: ErrorStructure::Independent,
    })
}

fn correlated(basis: &Basis, residuals: &[f64]) -> Result<RobustCovariance, FitError> {
    if residuals.iter().all(|e| e.abs() < f64::MIN_POSITIVE) {
        return Err(FitError::NotUsable("the residuals, all of them zero,"));
    }
    let likelihood = Likelihood::new(basis, residuals);
    let errors = likelihood.best();
    let [(_, variance), _] = likelihood.deviances([errors; 2]);
    let dof = (basis.q.nrows() - basis.q.ncols()) as f64;
    Ok(RobustCovariance {
        covariance: basis.covariance(&(errors.middle(basis) * variance)),
        dof: degrees_of_freedom(basis, &likelihood, errors, dof),
        errors: ErrorStructure::Autoregressive,
    })
}

/// Means over blocks of `size` readings; the last block takes the remainder too.
fn block_means(jacobian: &DMatrix<f64>, residuals: &[f64], size: usize) -> (DMatrix<f64>, Vec<f64>) {
    let blocks = residuals.len() / size;
    let end = |k: usize| if k + 1 == blocks { residuals.len() } else { (k + 1) * size };
    let over = |k: usize, values: &[f64]| mean(&values[k * size..end(k)]);
    let columns: Vec<Vec<f64>> = jacobian.column_iter().map(|c| c.iter().copied().collect()).collect();
    let averaged = DMatrix::from_fn(blocks, columns.len(), |k, j| over(k, &columns[j]));
    (averaged, (0..blocks).map(|k| over(k, residuals)).collect())
}
