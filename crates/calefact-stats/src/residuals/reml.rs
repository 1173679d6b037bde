//! Restricted maximum likelihood of a first-order autoregression plus white noise in the residuals of a least-squares fit.
//!
//! Slow drift gives the autoregression, rounding of the display and pick-up the white noise; a lone autoregression takes
//! their sum for far less correlated than it is. Moments of residuals understate correlation, the more so the closer it
//! is to one; the restricted likelihood (Patterson and Thompson 1971; Cooper and Thompson 1977) corrects for that.

use super::moments::Basis;
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
        self.theta.tanh()
    }

    /// Q' Omega Q / s^2.
    pub(super) fn middle(self, basis: &Basis) -> DMatrix<f64> {
        let p = basis.q.ncols();
        basis.middle(self.rho()) * (1.0 - self.white) + DMatrix::identity(p, p) * self.white
    }

    pub(super) fn moved(self, theta: f64, white: f64) -> Self {
        Self { theta: self.theta + theta, white: self.white + white }
    }

    fn allowed(self) -> bool {
        (0.0..=LARGEST_THETA).contains(&self.theta) && (0.0..=0.99).contains(&self.white)
    }
}

/// atanh 0.99990: beyond it a series is too short to tell its correlation from a drift.
pub(super) const LARGEST_THETA: f64 = 4.951_7;

/// Rows z_i = (q_i, e_i) of the basis and the residuals.
pub(super) struct Likelihood {
    rows: Vec<f64>,
    n: usize,
    p: usize,
}

impl Likelihood {
    pub(super) fn new(basis: &Basis, residuals: &[f64]) -> Self {
        let (n, p) = basis.q.shape();
        let row = |i: usize| (0..p).map(move |j| basis.q[(i, j)]).chain([residuals[i]]);
        Self { rows: (0..n).flat_map(row).collect(), n, p }
    }

    /// Twice the negative restricted log-likelihood, profiled over s^2, and s^2 itself:
    /// (n-p) ln s^2 + ln|Omega| + ln|Q' Omega^-1 Q|.
    pub(super) fn deviance(&self, errors: Errors) -> (f64, f64) {
        let (inner, ln_omega) = self.whitened(errors);
        let x = inner.view((0, 0), (self.p, self.p)).into_owned();
        let xe = inner.view((0, self.p), (self.p, 1)).into_owned();
        let Some(cholesky) = x.cholesky() else { return (f64::INFINITY, f64::NAN) };
        let dof = (self.n - self.p) as f64;
        let variance = (inner[(self.p, self.p)] - xe.dot(&cholesky.solve(&xe))) / dof;
        let ln_x = 2.0 * cholesky.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>();
        (dof * variance.ln() + ln_omega + ln_x, variance)
    }

    /// Z' Omega^-1 Z and ln|Omega| by the Kalman filter of one state (Harvey 1989, 3.4), all columns at once.
    fn whitened(&self, errors: Errors) -> (DMatrix<f64>, f64) {
        let (rho, white, width) = (errors.rho(), errors.white, self.p + 1);
        let (drive, mut state) = ((1.0 - white) * (1.0 - rho * rho), 1.0 - white);
        let (mut guess, mut new) = (vec![0.0; width], vec![0.0; width]);
        let (mut sum, mut ln_omega) = (vec![0.0; width * width], 0.0);
        for z in self.rows.chunks_exact(width) {
            let spread = state + white;
            let gain = state / spread;
            for j in 0..width {
                new[j] = z[j] - guess[j];
                guess[j] = rho * (guess[j] + gain * new[j]);
            }
            for j in 0..width {
                let scaled = new[j] / spread;
                for k in j..width {
                    sum[j * width + k] += scaled * new[k];
                }
            }
            ln_omega += spread.ln();
            state = rho * rho * state * (1.0 - gain) + drive;
        }
        (DMatrix::from_fn(width, width, |j, k| sum[j.min(k) * width + j.max(k)]), ln_omega)
    }

    /// The errors of least deviance, without white noise unless it lowers the deviance by more than two (Akaike's price
    /// of one more parameter).
    pub(super) fn best(&self) -> Errors {
        let (plain, without) = self.search(&[0.0]);
        let (noisy, with) = self.search(&[0.0, 0.3, 0.6, 0.9]);
        if with < without - 2.0 { noisy } else { plain }
    }

    /// Least deviance from a coarse grid and then a pattern search that halves its steps; `whites` of one value alone stays
    /// at it.
    fn search(&self, whites: &[f64]) -> (Errors, f64) {
        let at = |e: Errors| if e.allowed() { self.deviance(e).0 } else { f64::INFINITY };
        let grid =
            (0..8).flat_map(|k| whites.iter().map(move |white| Errors { theta: 0.6 * f64::from(k), white: *white }));
        let first = Errors { theta: 0.0, white: 0.0 };
        let (mut here, mut least) = grid.fold((first, at(first)), |best, e| nearer(best, (e, at(e))));
        let mut step = 0.3;
        while step > 1e-3 {
            let w = if whites.len() > 1 { 0.5 * step } else { 0.0 };
            let around =
                [(step, 0.0), (-step, 0.0), (0.0, w), (0.0, -w), (step, w), (-step, -w), (step, -w), (-step, w)];
            let best =
                around.into_iter().map(|(t, w)| here.moved(t, w)).fold((here, least), |b, e| nearer(b, (e, at(e))));
            if best.1 < least {
                (here, least) = best;
            } else {
                step *= 0.5;
            }
        }
        (here, least)
    }
}

/// The candidate if it is lower by more than rounding, else what there was.
fn nearer(best: (Errors, f64), candidate: (Errors, f64)) -> (Errors, f64) {
    if candidate.1 < best.1 - 1e-9 { candidate } else { best }
}
