//! Everything the likelihood and the tests need at one set of variances theta.
//!
//! V = sum theta_i G_i, Phi = (X' V^-1 X)^-1, beta = Phi X' V^-1 y, P = V^-1 - V^-1 X Phi X' V^-1 (Searle, Casella &
//! McCulloch 1992, Variance Components, chapter 6).

use crate::mixed::fit::Criterion;
use crate::mixed::structure::Component;
use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// Response, design and the components in play (residual first).
pub(crate) struct Model<'a> {
    pub(crate) y: DVector<f64>,
    pub(crate) x: &'a DMatrix<f64>,
    pub(crate) components: Vec<Component>,
    pub(crate) criterion: Criterion,
}

pub(crate) struct State {
    pub(crate) beta: DVector<f64>,
    /// Phi, covariance of beta were theta known.
    pub(crate) covariance: DMatrix<f64>,
    pub(crate) v_inverse: DMatrix<f64>,
    pub(crate) p: DMatrix<f64>,
    /// P y = V^-1 (y - X beta).
    pub(crate) py: DVector<f64>,
    /// -2 ln likelihood (restricted for REML), with all constants.
    pub(crate) deviance: f64,
}

impl State {
    /// `None` when V or X' V^-1 X is not positive definite.
    pub(crate) fn at(model: &Model, theta: &[f64]) -> Option<Self> {
        let (n, rank) = model.x.shape();
        let terms = theta.iter().zip(&model.components);
        let v = terms.fold(DMatrix::zeros(n, n), |sum, (t, c)| sum + &c.matrix * *t);
        let v_factor = Cholesky::new(v)?;
        let v_inverse = v_factor.inverse();
        let vx = &v_inverse * model.x;
        let xvx = Cholesky::new(model.x.transpose() * &vx)?;
        let covariance = xvx.inverse();
        let beta = &covariance * (vx.transpose() * &model.y);
        let p = &v_inverse - &vx * &covariance * vx.transpose();
        let py = &v_inverse * (&model.y - model.x * &beta);
        let squares = py.dot(&model.y);
        let deviance = match model.criterion {
            Criterion::Ml => log_two_pi(n) + log_det(&v_factor) + squares,
            Criterion::Reml => log_two_pi(n - rank) + log_det(&v_factor) + log_det(&xvx) + squares,
        };
        Some(Self { beta, covariance, v_inverse, p, py, deviance })
    }

    /// The derivative of ln likelihood in each theta, and its expected information matrix.
    pub(crate) fn score_and_information(&self, model: &Model) -> (DVector<f64>, DMatrix<f64>) {
        let kernel = if model.criterion == Criterion::Reml { &self.p } else { &self.v_inverse };
        let products: Vec<DMatrix<f64>> = model.components.iter().map(|c| kernel * &c.matrix).collect();
        let score = model.components.iter().zip(&products).map(|(c, kg)| {
            let quadratic = self.py.dot(&(&c.matrix * &self.py));
            0.5 * (quadratic - kg.trace())
        });
        let score = DVector::from_iterator(products.len(), score);
        let information = DMatrix::from_fn(products.len(), products.len(), |i, j| {
            0.5 * products[i].component_mul(&products[j].transpose()).sum()
        });
        (score, information)
    }

    /// Observed information: the negative second derivative, y'P G_i P G_j P y less the expected one.
    pub(crate) fn observed_information(&self, model: &Model) -> DMatrix<f64> {
        let (_, expected) = self.score_and_information(model);
        let gpy: Vec<DVector<f64>> = model.components.iter().map(|c| &c.matrix * &self.py).collect();
        let size = gpy.len();
        DMatrix::from_fn(size, size, |i, j| gpy[i].dot(&(&self.p * &gpy[j]))) - expected
    }
}

fn log_two_pi(n: usize) -> f64 {
    n as f64 * (2.0 * std::f64::consts::PI).ln()
}

fn log_det(factor: &Cholesky<f64, Dyn>) -> f64 {
    2.0 * factor.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>()
}
