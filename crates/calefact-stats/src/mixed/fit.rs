//! The mixed model fitted: fixed effects, variances, and what tests need of them. How the variances are found is in
//! `maximise`.

use crate::mixed::MixedError;
use crate::mixed::maximise::{Settled, settle};
use crate::mixed::state::{Model, Moments, State};
use crate::mixed::structure::Component;
use nalgebra::{DMatrix, DVector};
use serde::Serialize;

/// What is maximised.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Criterion {
    /// Restricted likelihood (Patterson & Thompson 1971, Biometrika 58:545): variances free of the fixed effects.
    Reml,
    /// Likelihood; variances come out too small, for comparing fits with different fixed effects.
    Ml,
}

/// Largest number of observations that random parts may tie together.
const LARGEST_BLOCK: usize = 1000;

/// A fitted mixed model. A random part whose variance comes out as zero is left out of all that follows; without any left
/// the fit is ordinary least squares.
#[derive(Debug, Clone)]
pub struct MixedFit {
    /// Fixed effects, in the order of the design's columns.
    pub beta: Vec<f64>,
    /// Every component with its estimate: residual first, then the random parts as given; zero where left out.
    pub variances: Vec<(String, f64)>,
    /// -2 ln likelihood at the estimates (restricted for REML), with all constants.
    pub deviance: f64,
    /// What was maximised.
    pub criterion: Criterion,
    /// Phi, covariance of the fixed effects were the variances known.
    pub covariance: DMatrix<f64>,
    pub(crate) detail: Detail,
}

/// What the tests need of the fit: only components that are in play.
#[derive(Debug, Clone)]
pub(crate) struct Detail {
    /// X' V^-1 G_i V^-1 X.
    pub(crate) xgx: Vec<DMatrix<f64>>,
    /// X' V^-1 G_i V^-1 G_j V^-1 X, row by row.
    pub(crate) xggx: Vec<DMatrix<f64>>,
    /// Inverse of the expected information of theta.
    pub(crate) theta_covariance: DMatrix<f64>,
    /// Inverse of the observed information of theta; the expected one where that is not positive definite.
    pub(crate) theta_covariance_observed: DMatrix<f64>,
    pub(crate) whitened: Whitened,
}

/// What belongs to single observations, in their order.
#[derive(Debug, Clone)]
pub(crate) struct Whitened {
    /// V^-1 (y - X beta).
    pub(crate) py: DVector<f64>,
    /// V^-1 X.
    pub(crate) vx: DMatrix<f64>,
}

impl Whitened {
    fn of_blocks(model: &Model, state: &State) -> Self {
        let mut py = DVector::zeros(model.observations);
        let mut vx = DMatrix::zeros(model.observations, model.parameters);
        for ((block, inverse), part) in model.blocks.iter().zip(&state.v_inverse).zip(&state.py) {
            let whitened = inverse * &block.x;
            for (k, &row) in block.rows.iter().enumerate() {
                py[row] = part[k];
                vx.row_mut(row).copy_from(&whitened.row(k));
            }
        }
        Self { py, vx }
    }
}

impl MixedFit {
    /// Fits response `y` on `design` (one row an observation) with the random parts given.
    ///
    /// # Errors
    /// [`MixedError`] when sizes differ, the design is rank-deficient or leaves no scatter, or the iteration does not settle.
    pub fn new(
        y: &[f64],
        design: &DMatrix<f64>,
        random: Vec<Component>,
        criterion: Criterion,
    ) -> Result<Self, MixedError> {
        check(y.len(), design, &random)?;
        let mut components = vec![Component::residual(y.len())];
        components.extend(random);
        let names: Vec<String> = components.iter().map(|c| c.name.clone()).collect();
        let model = Model::new(y, design, components, criterion);
        if model.blocks.iter().any(|b| b.rows.len() > LARGEST_BLOCK) {
            return Err(MixedError::TooLarge);
        }
        let rebuild = |kept: &[usize]| {
            Model::new(y, design, kept.iter().map(|&i| model.components[i].clone()).collect(), criterion)
        };
        let settled = settle(&model, y, rebuild)?;
        let whitened = Whitened::of_blocks(&settled.model, &settled.state);
        Self::finish(names, settled, whitened)
    }

    /// The fit from its settled variances.
    pub(crate) fn finish(names: Vec<String>, settled: Settled, whitened: Whitened) -> Result<Self, MixedError> {
        let Settled { variances, model, state } = settled;
        Ok(Self {
            beta: state.beta.iter().copied().collect(),
            variances: names.into_iter().zip(variances).collect(),
            deviance: state.deviance,
            criterion: model.criterion,
            covariance: state.covariance.clone(),
            detail: Detail::of(&model, &state, whitened)?,
        })
    }

    /// Predicted random intercepts of component `index` (1 is the first random part) for levels 0, 1, ...:
    /// theta Z' V^-1 (y - X beta), best linear unbiased prediction.
    pub fn block_effects(&self, index: usize, codes: &[usize]) -> Vec<f64> {
        let theta = self.variances.get(index).map_or(0.0, |v| v.1);
        let mut effects = vec![0.0; codes.iter().max().map_or(0, |m| m + 1)];
        codes.iter().zip(self.detail.whitened.py.iter()).for_each(|(&c, r)| effects[c] += theta * r);
        effects
    }

    /// Residual variance.
    pub fn residual_variance(&self) -> f64 {
        self.variances[0].1
    }
}

impl Detail {
    fn of(model: &Model, state: &State, whitened: Whitened) -> Result<Self, MixedError> {
        let moments = Moments::of(model, state);
        let invert = |m: DMatrix<f64>| m.cholesky().map(|c| c.inverse());
        let theta_covariance = invert(moments.expected_information(model, state)).ok_or(MixedError::NotConverged)?;
        let observed = invert(moments.observed_information(model, state)).unwrap_or_else(|| theta_covariance.clone());
        Ok(Self {
            xgx: moments.xgx,
            xggx: moments.xggx,
            theta_covariance,
            theta_covariance_observed: observed,
            whitened,
        })
    }
}

pub(crate) fn check(n: usize, design: &DMatrix<f64>, random: &[Component]) -> Result<(), MixedError> {
    if design.nrows() != n || random.iter().any(|c| c.len() != Some(n)) {
        return Err(MixedError::Sizes);
    }
    if n <= design.ncols() || crate::design::rank(design) < design.ncols() {
        return Err(MixedError::RankDeficient);
    }
    Ok(())
}
