//! Restricted maximum likelihood of a first-order autoregression in the residuals of a least-squares fit.
//!
//! The moment estimate of rho from residuals is too small, the more so the closer rho is to one and the more parameters
//! were fitted; the restricted likelihood (Patterson and Thompson 1971; Cooper and Thompson 1977) corrects for both.

use super::moments::Basis;
use nalgebra::DMatrix;

/// Sums over all rows, over neighbours and over the two end rows of z z', z = (q_i, e_i): enough for the likelihood at
/// any rho, so that a search costs nothing per reading.
pub(super) struct Likelihood {
    all: DMatrix<f64>,
    neighbours: DMatrix<f64>,
    ends: DMatrix<f64>,
    n: f64,
    p: usize,
}

/// Largest correlation considered. Beyond it the series is too short to tell its correlation from a drift.
pub(super) const LARGEST_RHO: f64 = 0.999_9;

impl Likelihood {
    pub(super) fn new(basis: &Basis, residuals: &[f64]) -> Self {
        let (n, p) = basis.q.shape();
        let mut z = basis.q.clone().insert_column(p, 0.0);
        z.column_mut(p).copy_from_slice(residuals);
        let all = z.tr_mul(&z);
        let cross = z.rows(1, n - 1).tr_mul(&z.rows(0, n - 1));
        let end = |i: usize| z.row(i).transpose() * z.row(i);
        let ends = end(0) + end(n - 1);
        Self { all, neighbours: (&cross + cross.transpose()) * 0.5, ends, n: n as f64, p }
    }

    /// Twice the negative restricted log-likelihood, profiled over the variance, and the variance of one reading:
    /// (n-p) ln s^2 + ln|Omega| + ln|Q' Omega^-1 Q|, s^2 = e' P e / (n - p).
    pub(super) fn deviance(&self, rho: f64) -> (f64, f64) {
        let gap = 1.0 - rho * rho;
        let inner = &self.all * (1.0 + rho * rho) - &self.ends * (rho * rho) - &self.neighbours * (2.0 * rho);
        let x = inner.view((0, 0), (self.p, self.p)).into_owned();
        let xe = inner.view((0, self.p), (self.p, 1)).into_owned();
        let Some(cholesky) = x.cholesky() else { return (f64::INFINITY, f64::NAN) };
        let explained = xe.dot(&cholesky.solve(&xe));
        let dof = self.n - self.p as f64;
        // Both are divided by `gap` where Omega^-1 is meant.
        let variance = (inner[(self.p, self.p)] - explained) / dof / gap;
        let log_x = 2.0 * cholesky.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>() - self.p as f64 * gap.ln();
        (dof * variance.ln() + (self.n - 1.0) * gap.ln() + log_x, variance)
    }

    /// The rho >= 0 of least deviance: a grid in atanh rho, where the likelihood is nearly quadratic, then golden section.
    pub(super) fn rho(&self) -> f64 {
        let at = |theta: f64| self.deviance(theta.tanh()).0;
        let top = LARGEST_RHO.atanh();
        let best = (0..=40).map(|k| top * f64::from(k) / 40.0).min_by(|a, b| at(*a).total_cmp(&at(*b))).unwrap_or(0.0);
        let (mut low, mut high) = ((best - top / 40.0).max(0.0), (best + top / 40.0).min(top));
        for _ in 0..60 {
            let (a, b) = (high - 0.618_033_988_75 * (high - low), low + 0.618_033_988_75 * (high - low));
            if at(a) < at(b) { high = b } else { low = a }
        }
        let inside = 0.5 * (low + high);
        if at(0.0) <= at(inside) { 0.0 } else { inside.tanh() }
    }
}
