//! What readings scatter about their slow course.
//!
//! The course is what the fire did, which a mean is meant to hold; what is left is error of reading, whose autocorrelation
//! leaves fewer independent readings (first-order autoregressive).

use calefact_stats::OrthogonalPolynomials;
use calefact_stats::{residuals, univariate};

/// Readings for each degree of the course that is taken out before the scatter is judged.
const TREND: usize = 6;
/// Highest degree.
pub(crate) const HIGHEST: usize = 6;

/// Scatter of readings.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scatter {
    /// Standard deviation.
    pub(crate) sd: f64,
    /// Readings that would say as much if they were independent.
    pub(crate) independent: f64,
    /// Degrees of freedom.
    pub(crate) dof: f64,
}

/// A slow course over some times: a polynomial of one degree for each [`TREND`] readings, [`HIGHEST`] at most.
pub(crate) struct Course {
    polynomials: OrthogonalPolynomials,
    degree: usize,
}

impl Course {
    /// The course over times in order; `None` with fewer than [`TREND`].
    pub(crate) fn new(t: &[f64]) -> Option<Self> {
        let degree = (t.len() / TREND).min(HIGHEST);
        if degree == 0 {
            return None;
        }
        let (first, last) = (t[0], t[t.len() - 1]);
        let x: Vec<f64> = t.iter().map(|t| 2.0 * (t - first) / (last - first) - 1.0).collect();
        Some(Self { polynomials: OrthogonalPolynomials::new(&x, degree)?, degree })
    }

    /// Scatter about it of readings at its times.
    pub(crate) fn scatter(&self, v: &[f64]) -> Option<Scatter> {
        let fit = self.polynomials.about(v)?;
        let size = v.iter().fold(0.0_f64, |most, v| most.max(v.abs()));
        if fit.residuals.iter().all(|r| r.abs() <= 1e-9 * size) {
            return Some(Scatter { sd: 0.0, independent: v.len() as f64, dof: f64::INFINITY });
        }
        let rho = univariate::lag1(&fit.residuals).clamp(0.0, 0.98);
        let independent = residuals::effective_sample_size(v.len(), rho);
        Some(Scatter { sd: fit.residual_sd, independent, dof: (independent - self.degree as f64 - 1.0).max(1.0) })
    }
}

/// Scatter of readings about their own course; `None` with fewer than [`TREND`].
pub(crate) fn scatter(t: &[f64], v: &[f64]) -> Option<Scatter> {
    Course::new(t)?.scatter(v)
}
