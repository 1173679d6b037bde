//! One covariance for readings in time order, few or many.

use super::long_run::excess;
use super::moments::Basis;
use super::reml::{LARGEST_RHO, Likelihood};
use crate::fit_error::FitError;
use nalgebra::DMatrix;

/// A covariance with the degrees of freedom its intervals need.
#[derive(Debug, Clone, PartialEq)]
pub struct RobustCovariance {
    /// Covariance of the fitted parameters.
    pub covariance: DMatrix<f64>,
    /// Degrees of freedom for t intervals: the least over the parameters.
    pub dof_effective: f64,
    /// Degrees of freedom parameter by parameter.
    pub dof_by_parameter: Vec<f64>,
    /// Correlation between neighbours that was allowed for; zero for the classical covariance.
    pub rho: f64,
    /// What was done, in words.
    pub method: &'static str,
}

/// Fewer degrees of freedom than this cannot show a correlation; the classical covariance and a runs test must serve.
const FEW: usize = 30;

/// Covariance of least-squares parameters from the final Jacobian and the residuals in time order.
///
/// With fewer than 30 degrees of freedom: the classical s^2 (J'J)^-1 and n - p degrees of freedom. Otherwise the errors are
/// taken as a first-order autoregression with variance s^2 and correlation rho >= 0, both estimated by restricted
/// maximum likelihood, and the covariance is (J'J)^-1 J' Omega J (J'J)^-1 with Omega_ij = s^2 rho^|i-j|, times the
/// long-run variance the innovations still have beyond that of white noise, if it stands out from its own scatter. The
/// degrees of freedom are Satterthwaite's 2 v^2/Var(v), v being the parameter's variance as a function of (s^2, rho)
/// and Var(v) its first-order variance by the curvature of the restricted likelihood (Fai and Cornelius 1996).
///
/// # Errors
/// [`FitError`] when lengths differ, values are not finite or the Jacobian is not of full rank.
pub fn robust_covariance(jacobian: &DMatrix<f64>, residuals: &[f64]) -> Result<RobustCovariance, FitError> {
    let basis = Basis::new(jacobian, residuals)?;
    let (n, p) = jacobian.shape();
    let dof = (n - p) as f64;
    if n < p + FEW {
        let variance = if n > p { residuals.iter().map(|e| e * e).sum::<f64>() / dof } else { f64::NAN };
        return Ok(answer(basis.covariance(&(DMatrix::identity(p, p) * variance)), vec![dof; p], 0.0, CLASSICAL));
    }
    let likelihood = Likelihood::new(&basis, residuals);
    let rho = likelihood.rho();
    let (_, variance) = likelihood.deviance(rho);
    let excess = excess(residuals, rho);
    let covariance = basis.covariance(&(basis.middle(rho) * (variance * excess)));
    let dofs = satterthwaite(&basis, &likelihood, rho, dof);
    let method = if excess > 1.0 { AUTOREGRESSION_AND_MORE } else { AUTOREGRESSION };
    Ok(answer(covariance, dofs, rho, method))
}

const CLASSICAL: &str = "independent errors, Student t";
const AUTOREGRESSION: &str = "first-order autoregressive errors (REML), Satterthwaite t";
const AUTOREGRESSION_AND_MORE: &str =
    "first-order autoregressive errors (REML) with long-run variance of the innovations, Satterthwaite t";

fn answer(covariance: DMatrix<f64>, dof_by_parameter: Vec<f64>, rho: f64, method: &'static str) -> RobustCovariance {
    let dof_effective = dof_by_parameter.iter().copied().fold(f64::INFINITY, f64::min);
    RobustCovariance { covariance, dof_effective, dof_by_parameter, rho, method }
}

/// Var(ln v) in theta = atanh rho, with s^2 profiled out: ln v = ln s^2(theta) + ln m(theta), where ln s^2 at fixed theta has
/// variance 2/(n - p) and theta has variance 2/D'' with D the profiled deviance.
fn satterthwaite(basis: &Basis, likelihood: &Likelihood, rho: f64, dof: f64) -> Vec<f64> {
    let theta = rho.atanh();
    let h = 0.02_f64.max(0.02 * theta).min(0.5 * (LARGEST_RHO.atanh() - theta).max(0.02));
    let (low, high) = ((theta - h).tanh(), (theta + h).tanh());
    let deviance = |r: f64| likelihood.deviance(r).0;
    let curvature = (deviance(high) - 2.0 * deviance(rho) + deviance(low)) / (h * h);
    let log_variance = |r: f64| {
        let s2 = likelihood.deviance(r).1;
        basis.covariance(&(basis.middle(r) * s2)).diagonal().map(f64::ln)
    };
    let slope = (log_variance(high) - log_variance(low)) / (2.0 * h);
    slope.iter().map(|g| 2.0 / (2.0 / dof + g * g * 2.0 / curvature.max(f64::MIN_POSITIVE))).collect()
}
