//! Everything the likelihood and the tests need at one set of variances theta.
//!
//! V = sum theta_i G_i, Phi = (X' V^-1 X)^-1, beta = Phi X' V^-1 y, P = V^-1 - V^-1 X Phi X' V^-1 (Searle, Casella &
//! McCulloch 1992, Variance Components, chapter 6). V is zero between blocks, so every quantity is a sum over blocks and
//! P itself is never formed.

use crate::mixed::fit::Criterion;
use crate::mixed::structure::{Component, blocks};
use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// Response, design and the components in play (residual first), cut into blocks.
pub(crate) struct Model {
    pub(crate) observations: usize,
    pub(crate) parameters: usize,
    pub(crate) components: Vec<Component>,
    pub(crate) criterion: Criterion,
    pub(crate) blocks: Vec<Block>,
}

/// The part of the model that belongs to one block of observations.
pub(crate) struct Block {
    pub(crate) rows: Vec<usize>,
    pub(crate) y: DVector<f64>,
    pub(crate) x: DMatrix<f64>,
    /// G_i of each component.
    pub(crate) g: Vec<DMatrix<f64>>,
    /// How many times the block's V counts in determinant and traces: more than once where a block stands for several of
    /// the same V whose response and design have been gathered into this one.
    pub(crate) repeat: f64,
}

impl Model {
    pub(crate) fn new(y: &[f64], x: &DMatrix<f64>, components: Vec<Component>, criterion: Criterion) -> Self {
        let cut = |rows: Vec<usize>| Block {
            y: DVector::from_iterator(rows.len(), rows.iter().map(|&i| y[i])),
            x: x.select_rows(&rows),
            g: components.iter().map(|c| c.among(&rows)).collect(),
            rows,
            repeat: 1.0,
        };
        let blocks = blocks(y.len(), &components).into_iter().map(cut).collect();
        Self { observations: y.len(), parameters: x.ncols(), components, criterion, blocks }
    }
}

pub(crate) struct State {
    pub(crate) beta: DVector<f64>,
    /// Phi, covariance of beta were theta known.
    pub(crate) covariance: DMatrix<f64>,
    /// V^-1 of each block.
    pub(crate) v_inverse: Vec<DMatrix<f64>>,
    /// P y = V^-1 (y - X beta) of each block.
    pub(crate) py: Vec<DVector<f64>>,
    /// -2 ln likelihood (restricted for REML), with all constants.
    pub(crate) deviance: f64,
}

impl State {
    /// `None` when V or X' V^-1 X is not positive definite.
    pub(crate) fn at(model: &Model, theta: &[f64]) -> Option<Self> {
        let p = model.parameters;
        let (mut xvx, mut xvy, mut log_det_v) = (DMatrix::zeros(p, p), DVector::zeros(p), 0.0);
        let mut v_inverse = Vec::with_capacity(model.blocks.len());
        for block in &model.blocks {
            let n = block.y.len();
            let v = theta.iter().zip(&block.g).fold(DMatrix::zeros(n, n), |sum, (t, g)| sum + g * *t);
            let factor = Cholesky::new(v)?;
            let inverse = factor.inverse();
            let vx = &inverse * &block.x;
            xvx += block.x.transpose() * &vx;
            xvy += vx.transpose() * &block.y;
            log_det_v += block.repeat * log_det(&factor);
            v_inverse.push(inverse);
        }
        let factor = Cholesky::new(xvx)?;
        let covariance = factor.inverse();
        let beta = &covariance * xvy;
        let residuals = |(b, vi): (&Block, &DMatrix<f64>)| vi * (&b.y - &b.x * &beta);
        let py: Vec<DVector<f64>> = model.blocks.iter().zip(&v_inverse).map(residuals).collect();
        let squares: f64 = py.iter().zip(&model.blocks).map(|(r, b)| r.dot(&b.y)).sum();
        let (dimension, extra) = match model.criterion {
            Criterion::Ml => (model.observations, 0.0),
            Criterion::Reml => (model.observations - p, log_det(&factor)),
        };
        let constant = dimension as f64 * (2.0 * std::f64::consts::PI).ln();
        Some(Self { beta, covariance, v_inverse, py, deviance: constant + log_det_v + extra + squares })
    }
}

/// Sums over blocks from which score, information and the tests are made.
pub(crate) struct Moments {
    /// X' V^-1 G_i V^-1 X.
    pub(crate) xgx: Vec<DMatrix<f64>>,
    /// X' V^-1 G_i V^-1 G_j V^-1 X, row by row.
    pub(crate) xggx: Vec<DMatrix<f64>>,
    /// tr(V^-1 G_i).
    trace: DVector<f64>,
    /// tr(V^-1 G_i V^-1 G_j).
    cross_trace: DMatrix<f64>,
    /// y'P G_i P y.
    quadratic: DVector<f64>,
    /// y'P G_i V^-1 G_j P y.
    cross_quadratic: DMatrix<f64>,
    /// X' V^-1 G_i P y.
    xgpy: Vec<DVector<f64>>,
}

impl Moments {
    pub(crate) fn of(model: &Model, state: &State) -> Self {
        let (m, p) = (model.components.len(), model.parameters);
        let mut sums = Self {
            xgx: vec![DMatrix::zeros(p, p); m],
            xggx: vec![DMatrix::zeros(p, p); m * m],
            trace: DVector::zeros(m),
            cross_trace: DMatrix::zeros(m, m),
            quadratic: DVector::zeros(m),
            cross_quadratic: DMatrix::zeros(m, m),
            xgpy: vec![DVector::zeros(p); m],
        };
        for ((block, v_inverse), py) in model.blocks.iter().zip(&state.v_inverse).zip(&state.py) {
            sums.add(block, v_inverse, py);
        }
        sums
    }

    fn add(&mut self, block: &Block, v_inverse: &DMatrix<f64>, py: &DVector<f64>) {
        let m = block.g.len();
        let vx = v_inverse * &block.x;
        let vg: Vec<DMatrix<f64>> = block.g.iter().map(|g| v_inverse * g).collect();
        let gvx: Vec<DMatrix<f64>> = block.g.iter().map(|g| g * &vx).collect();
        let gpy: Vec<DVector<f64>> = block.g.iter().map(|g| g * py).collect();
        for i in 0..m {
            self.xgx[i] += vx.transpose() * &gvx[i];
            self.xgpy[i] += vx.transpose() * &gpy[i];
            self.trace[i] += block.repeat * vg[i].trace();
            self.quadratic[i] += py.dot(&gpy[i]);
            let left = gvx[i].transpose() * v_inverse;
            for j in 0..m {
                self.xggx[i * m + j] += &left * &gvx[j];
                self.cross_trace[(i, j)] += block.repeat * vg[i].component_mul(&vg[j].transpose()).sum();
                self.cross_quadratic[(i, j)] += gpy[i].dot(&(v_inverse * &gpy[j]));
            }
        }
    }

    /// The derivative of ln likelihood in each theta.
    pub(crate) fn score(&self, model: &Model, state: &State) -> DVector<f64> {
        let taken = |i: usize| match model.criterion {
            Criterion::Ml => 0.0,
            Criterion::Reml => (&state.covariance * &self.xgx[i]).trace(),
        };
        DVector::from_fn(self.trace.len(), |i, _| 0.5 * (self.quadratic[i] - self.trace[i] + taken(i)))
    }

    /// Expected information of theta: half of tr(P G_i P G_j), with V^-1 for P under ML.
    pub(crate) fn expected_information(&self, model: &Model, state: &State) -> DMatrix<f64> {
        let (m, phi) = (self.trace.len(), &state.covariance);
        let taken = |i: usize, j: usize| match model.criterion {
            Criterion::Ml => 0.0,
            Criterion::Reml => {
                let once = (phi * &self.xggx[i * m + j]).trace();
                2.0 * once - (phi * &self.xgx[i] * phi * &self.xgx[j]).trace()
            }
        };
        DMatrix::from_fn(m, m, |i, j| 0.5 * (self.cross_trace[(i, j)] - taken(i, j)))
    }

    /// Observed information: y'P G_i P G_j P y less the expected one.
    pub(crate) fn observed_information(&self, model: &Model, state: &State) -> DMatrix<f64> {
        let expected = self.expected_information(model, state);
        let taken = |i: usize, j: usize| self.xgpy[i].dot(&(&state.covariance * &self.xgpy[j]));
        let m = self.trace.len();
        DMatrix::from_fn(m, m, |i, j| self.cross_quadratic[(i, j)] - taken(i, j)) - expected
    }
}

fn log_det(factor: &Cholesky<f64, Dyn>) -> f64 {
    2.0 * factor.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>()
}
