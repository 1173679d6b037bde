//! Everything the likelihood and the tests need at given variances.
//!
//! V = sum theta_i G_i with theta = (s, t), Phi = (X' V^-1 X)^-1, beta = Phi X' V^-1 y, P = V^-1 - V^-1 X Phi X' V^-1
//! (Searle, Casella & McCulloch 1992, Variance Components, chapter 6). In the gathered coordinates V and G_i are diagonal,
//! so every quantity is a sum over sets of coordinates.

use super::coordinates::Coordinates;
use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// Response and design with the variances in play.
pub(super) struct Model {
    /// Number of observations.
    pub(super) observations: usize,
    /// Number of fixed effects.
    pub(super) parameters: usize,
    /// 1 for the residual variance alone, 2 with the variance between blocks.
    pub(super) variances: usize,
    pub(super) sets: Vec<Coordinates>,
}

impl Coordinates {
    /// The diagonal of G_i, the same for all coordinates of the set.
    fn g(&self, i: usize) -> f64 {
        if i == 0 { 1.0 } else { self.size }
    }

    fn variance(&self, theta: &[f64]) -> f64 {
        theta.iter().enumerate().map(|(i, t)| t * self.g(i)).sum()
    }
}

/// The fit at given variances.
pub(super) struct State {
    pub(super) beta: DVector<f64>,
    /// Phi, covariance of beta were the variances known.
    pub(super) covariance: DMatrix<f64>,
    /// Variance and sum of squared residuals of each set.
    sets: Vec<(f64, f64)>,
    /// -2 ln restricted likelihood, with all constants.
    pub(super) deviance: f64,
    /// (y - X beta)' V^-1 (y - X beta).
    pub(super) squares: f64,
}

impl State {
    /// `None` when V or X' V^-1 X is not positive definite.
    pub(super) fn at(model: &Model, theta: &[f64]) -> Option<Self> {
        let p = model.parameters;
        let (mut xvx, mut xvy, mut log_det_v) = (DMatrix::zeros(p, p), DVector::zeros(p), 0.0);
        for set in &model.sets {
            let v = set.variance(theta);
            if v.is_nan() || v <= 0.0 {
                return None;
            }
            xvx += set.x.tr_mul(&set.x) / v;
            xvy += set.x.tr_mul(&set.y) / v;
            log_det_v += set.count * libm::log(v);
        }
        let factor = Cholesky::new(xvx)?;
        let covariance = factor.inverse();
        let beta = &covariance * xvy;
        let sets = model.sets.iter().map(|set| (set.variance(theta), (&set.y - &set.x * &beta).norm_squared()));
        let sets: Vec<(f64, f64)> = sets.collect();
        let squares = sets.iter().map(|(v, squares)| squares / v).sum();
        let constant = (model.observations - p) as f64 * libm::log(2.0 * std::f64::consts::PI);
        let deviance = constant + log_det_v + log_det(&factor) + squares;
        Some(Self { beta, covariance, sets, deviance, squares })
    }
}

/// Sums over coordinates from which score, information and the tests are made.
pub(super) struct Moments {
    /// X' V^-1 G_i V^-1 X.
    pub(super) xgx: Vec<DMatrix<f64>>,
    /// X' V^-1 G_i V^-1 G_j V^-1 X, row by row.
    xggx: Vec<DMatrix<f64>>,
    /// tr(V^-1 G_i).
    trace: DVector<f64>,
    /// tr(V^-1 G_i V^-1 G_j).
    cross_trace: DMatrix<f64>,
    /// y'P G_i P y.
    quadratic: DVector<f64>,
}

impl Moments {
    pub(super) fn new(model: &Model, state: &State) -> Self {
        let (m, p) = (model.variances, model.parameters);
        let mut sums = Self {
            xgx: vec![DMatrix::zeros(p, p); m],
            xggx: vec![DMatrix::zeros(p, p); m * m],
            trace: DVector::zeros(m),
            cross_trace: DMatrix::zeros(m, m),
            quadratic: DVector::zeros(m),
        };
        for (set, &(v, squares)) in model.sets.iter().zip(&state.sets) {
            sums.add(set, v, squares);
        }
        sums
    }

    fn add(&mut self, set: &Coordinates, v: f64, squares: f64) {
        let m = self.xgx.len();
        let xx = set.x.tr_mul(&set.x) / v;
        for i in 0..m {
            let gi = set.g(i) / v;
            self.xgx[i] += &xx * gi;
            self.trace[i] += set.count * gi;
            self.quadratic[i] += gi * squares / v;
            for j in 0..m {
                let gij = gi * set.g(j) / v;
                self.xggx[i * m + j] += &xx * gij;
                self.cross_trace[(i, j)] += set.count * gij;
            }
        }
    }

    /// The derivative of the ln restricted likelihood in each theta.
    pub(super) fn score(&self, phi: &DMatrix<f64>) -> DVector<f64> {
        let taken = |i: usize| (phi * &self.xgx[i]).trace();
        DVector::from_fn(self.trace.len(), |i, _| 0.5 * (self.quadratic[i] - self.trace[i] + taken(i)))
    }

    /// Phi_A = Phi + 2 Phi (sum_ij W_ij (Q_ij - P_i Phi P_j)) Phi, W the covariance of the variances (Kenward & Roger 1997,
    /// eq. 5; second derivatives of V are zero here).
    pub(super) fn adjusted(&self, phi: &DMatrix<f64>, w: &DMatrix<f64>) -> DMatrix<f64> {
        let size = self.xgx.len();
        let mut middle = DMatrix::zeros(phi.nrows(), phi.ncols());
        for i in 0..size {
            for j in 0..size {
                let term = &self.xggx[i * size + j] - &self.xgx[i] * phi * &self.xgx[j];
                middle += term * w[(i, j)];
            }
        }
        phi + phi * middle * phi * 2.0
    }

    /// Expected information of theta: half of tr(P G_i P G_j).
    pub(super) fn information(&self, phi: &DMatrix<f64>) -> DMatrix<f64> {
        let m = self.trace.len();
        let taken = |i: usize, j: usize| {
            2.0 * (phi * &self.xggx[i * m + j]).trace() - (phi * &self.xgx[i] * phi * &self.xgx[j]).trace()
        };
        DMatrix::from_fn(m, m, |i, j| 0.5 * (self.cross_trace[(i, j)] - taken(i, j)))
    }
}

fn log_det(factor: &Cholesky<f64, Dyn>) -> f64 {
    2.0 * factor.l_dirty().diagonal().iter().map(|d| libm::log(*d)).sum::<f64>()
}
