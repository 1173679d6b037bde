//! Effective degrees of freedom of a variance that itself is a function of estimated correlation.

use super::moments::Basis;
use super::reml::{Errors, Likelihood};
use nalgebra::{DVector, Matrix2, Vector2};

/// Least degrees of freedom given: where the deviance is flat in the correlation the formula falls to nothing and the interval
/// grows beyond use; one is the least a sample variance has.
const LEAST: f64 = 1.0;

/// Degrees of freedom 2 v^2 / Var(v), parameter by parameter (Satterthwaite 1946; Fai and Cornelius 1996): Var(ln v) =
/// 2/(n - p) for s^2 given the correlation, plus g' A g with g the gradient of ln v in (theta, log odds of the white share) and
/// A twice the inverse curvature of the profiled deviance. Without white noise there is theta alone.
pub(super) fn degrees_of_freedom(basis: &Basis, likelihood: &Likelihood, at: Errors, dof: f64) -> Vec<f64> {
    // Centred so that both sides of each step are allowed.
    let h = 0.03;
    let k = 0.1;
    let c = Errors { theta: at.theta.min(likelihood.largest_theta() - h), ..at };
    let deviance = |t: f64, w: f64| likelihood.deviance(c.moved(t * h, w * k)).0;
    let log_variance = |t: f64, w: f64| -> DVector<f64> {
        let e = c.moved(t * h, w * k);
        basis.covariance(&(e.middle(basis) * likelihood.deviance(e).1)).diagonal().map(f64::ln)
    };
    let by_theta = (log_variance(1.0, 0.0) - log_variance(-1.0, 0.0)) / (2.0 * h);
    let theta_theta = (deviance(1.0, 0.0) - 2.0 * deviance(0.0, 0.0) + deviance(-1.0, 0.0)) / (h * h);
    let alone = |g: f64| 2.0 * g * g / theta_theta.max(f64::MIN_POSITIVE);
    let answer = |extra: f64| (2.0 / (2.0 / dof + extra)).max(LEAST);
    if c.white <= 0.0 {
        return by_theta.iter().map(|g| answer(alone(*g))).collect();
    }
    let by_white = (log_variance(0.0, 1.0) - log_variance(0.0, -1.0)) / (2.0 * k);
    let white_white = (deviance(0.0, 1.0) - 2.0 * deviance(0.0, 0.0) + deviance(0.0, -1.0)) / (k * k);
    let cross = (deviance(1.0, 1.0) - deviance(1.0, -1.0) - deviance(-1.0, 1.0) + deviance(-1.0, -1.0)) / (4.0 * h * k);
    let curvature = Matrix2::new(theta_theta, cross, cross, white_white);
    let inverse = curvature.try_inverse().filter(|m| m[(0, 0)] > 0.0 && m.determinant() > 0.0);
    let extra = |g: Vector2<f64>| inverse.map_or_else(|| alone(g[0]), |m| 2.0 * g.dot(&(m * g)));
    by_theta.iter().zip(by_white.iter()).map(|(t, w)| answer(extra(Vector2::new(*t, *w)))).collect()
}
