//! Effective degrees of freedom of a variance that itself is a function of estimated correlation.

use super::basis::Basis;
use super::errors::Errors;
use super::reml::Likelihood;
use nalgebra::{DVector, Matrix2, Vector2};

/// Least degrees of freedom given: where the deviance is flat in the correlation the formula falls to nothing and the interval
/// grows beyond use. The thirty readings at least that lie behind it, however they hang together, tell more than two would.
const LEAST: f64 = 3.0;

/// Steps of the differences in theta and in the log odds of the white share.
const H: f64 = 0.03;
const K: f64 = 0.1;

/// Degrees of freedom 2 v^2 / Var(v), parameter by parameter (Satterthwaite 1946; Fai and Cornelius 1996): Var(ln v) =
/// 2/(n - p) for s^2 given the correlation, plus g' A g with g the gradient of ln v in (theta, log odds of the white share) and
/// A twice the inverse curvature of the profiled deviance. Without white noise there is theta alone.
pub(super) fn degrees_of_freedom(basis: &Basis, likelihood: &Likelihood, at: Errors, dof: f64) -> Vec<f64> {
    // Centred so that both sides of each step are allowed.
    let c = Errors { theta: at.theta.min(likelihood.largest_theta() - H), ..at };
    let values = |points: [(f64, f64); 2]| {
        let errors = points.map(|(t, w)| c.moved(t * H, w * K));
        likelihood.deviances(errors)
    };
    let log_variance = |t: f64, w: f64, variance: f64| -> DVector<f64> {
        basis.covariance(&(c.moved(t * H, w * K).middle(basis) * variance)).diagonal().map(libm::log)
    };
    let [(centre, _), _] = values([(0.0, 0.0); 2]);
    let slope_and_bend = |t: f64, w: f64, step: f64| {
        let [(up, more), (down, less)] = values([(t, w), (-t, -w)]);
        let slope = (log_variance(t, w, more) - log_variance(-t, -w, less)) / (2.0 * step);
        (slope, (up - 2.0 * centre + down) / (step * step))
    };
    let (by_theta, theta_theta) = slope_and_bend(1.0, 0.0, H);
    let alone = |g: f64| 2.0 * g * g / theta_theta.max(f64::MIN_POSITIVE);
    let answer = |extra: f64| (2.0 / (2.0 / dof + extra)).max(LEAST);
    if c.white <= 0.0 {
        return by_theta.iter().map(|g| answer(alone(*g))).collect();
    }
    let (by_white, white_white) = slope_and_bend(0.0, 1.0, K);
    let [like, unlike] = [1.0, -1.0].map(|sign| values([(1.0, sign), (-1.0, -sign)]).map(|v| v.0));
    let cross = (like[0] + like[1] - unlike[0] - unlike[1]) / (4.0 * H * K);
    let curvature = Matrix2::new(theta_theta, cross, cross, white_white);
    let inverse = curvature.try_inverse().filter(|m| m[(0, 0)] > 0.0 && m.determinant() > 0.0);
    let extra = |g: Vector2<f64>| inverse.map_or_else(|| alone(g[0]), |m| 2.0 * g.dot(&(m * g)));
    by_theta.iter().zip(by_white.iter()).map(|(t, w)| answer(extra(Vector2::new(*t, *w)))).collect()
}
