//! Power of t tests from the noncentral t distribution (Cohen 1988, Statistical Power Analysis, 2.5).

use crate::dist::{noncentral_t_cdf, t_quantile};

/// Probability that |t| exceeds its critical value at two-sided `alpha` when the true effect is `delta` standard
/// uncertainties: 1 - F(t_c; nu, delta) + F(-t_c; nu, delta).
pub fn t_power(delta: f64, dof: f64, alpha: f64) -> f64 {
    let critical = t_quantile(1.0 - 0.5 * alpha, dof);
    1.0 - noncentral_t_cdf(critical, dof, delta) + noncentral_t_cdf(-critical, dof, delta)
}
