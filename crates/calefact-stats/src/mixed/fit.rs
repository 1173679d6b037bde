//! Estimation of the variances by REML or ML: Fisher scoring with step halving, variances kept at or above zero.

use crate::mixed::MixedError;
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
const ITERATIONS: usize = 200;

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

/// Variances at the optimum: of all components, zero where left out, with the model of those in play.
pub(crate) struct Settled {
    pub(crate) variances: Vec<f64>,
    pub(crate) model: Model,
    pub(crate) state: State,
}

/// Maximises, then once more without the variances that came out as zero; `rebuild` gives the model of the components kept.
pub(crate) fn settle(model: &Model, y: &[f64], rebuild: impl Fn(&[usize]) -> Model) -> Result<Settled, MixedError> {
    let (theta, _) = maximise(model, start(model, y)?)?;
    let stays = |i: &usize| theta[*i] != 0.0 || !model.components[*i].is_variance;
    let in_play: Vec<usize> = (0..theta.len()).filter(stays).collect();
    let reduced = rebuild(&in_play);
    let (kept, state) = maximise(&reduced, in_play.iter().map(|&i| theta[i]).collect())?;
    let mut variances = vec![0.0; theta.len()];
    in_play.iter().zip(&kept).for_each(|(&i, t)| variances[i] = *t);
    Ok(Settled { variances, model: reduced, state })
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

/// Half of the least-squares residual variance to the residual, half shared by the random parts.
fn start(model: &Model, y: &[f64]) -> Result<Vec<f64>, MixedError> {
    let mut theta = vec![0.0; model.components.len()];
    theta[0] = 1.0;
    let state = State::at(model, &theta).ok_or(MixedError::RankDeficient)?;
    let n = model.observations as f64;
    let squares: f64 = state.py.iter().map(DVector::norm_squared).sum();
    let variance = squares / (n - model.parameters as f64);
    if !variance.is_finite() || variance <= 1e-24 * y.iter().map(|v| v * v).sum::<f64>() / n {
        return Err(MixedError::NoScatter);
    }
    let random = model.components.iter().filter(|c| c.is_variance).count() - 1;
    theta[0] = if random == 0 { variance } else { 0.5 * variance };
    for (t, c) in theta.iter_mut().zip(&model.components).skip(1).filter(|(_, c)| c.is_variance) {
        *t = 0.5 * variance / random as f64 * n / c.trace().max(f64::MIN_POSITIVE);
    }
    Ok(theta)
}

/// Expected gain in ln likelihood below which steps are taken without comparing likelihoods, whose differences are then
/// rounding; the gain itself goes on falling to its own rounding.
const NEAR_TOP: f64 = 1e-7;

fn maximise(model: &Model, mut theta: Vec<f64>) -> Result<(Vec<f64>, State), MixedError> {
    let mut state = State::at(model, &theta).ok_or(MixedError::NotConverged)?;
    let mut last_gain = f64::INFINITY;
    for _ in 0..ITERATIONS {
        let step = scoring_step(model, &state, &theta).ok_or(MixedError::NotConverged)?;
        let near = step.gain < NEAR_TOP;
        if step.gain < 1e-26 || (near && step.gain >= last_gain) {
            return Ok((theta, state));
        }
        last_gain = if near { step.gain } else { f64::INFINITY };
        let bound = if near { f64::INFINITY } else { state.deviance };
        (theta, state) = improve(model, &theta, &step.delta, bound).ok_or(MixedError::NotConverged)?;
    }
    Err(MixedError::NotConverged)
}

struct Step {
    delta: Vec<f64>,
    /// score' information^-1 score: twice the gain in ln likelihood to be expected.
    gain: f64,
}

/// Information^-1 score over the components that are free: not a variance at zero with the likelihood falling inwards.
fn scoring_step(model: &Model, state: &State, theta: &[f64]) -> Option<Step> {
    let moments = Moments::of(model, state);
    let (score, information) = (moments.score(model, state), moments.expected_information(model, state));
    let held = |i: usize| model.components[i].is_variance && theta[i] == 0.0 && score[i] <= 0.0;
    let free: Vec<usize> = (0..theta.len()).filter(|&i| !held(i)).collect();
    let part = DVector::from_iterator(free.len(), free.iter().map(|&i| score[i]));
    let matrix = information.select_rows(&free).select_columns(&free);
    let solved = matrix.cholesky()?.solve(&part);
    let mut delta = vec![0.0; theta.len()];
    free.iter().zip(solved.iter()).for_each(|(&i, d)| delta[i] = *d);
    Some(Step { delta, gain: part.dot(&solved) })
}

/// The longest of the step's halvings whose deviance is not above `bound`; variances are cut off at zero, the residual one
/// above it.
fn improve(model: &Model, theta: &[f64], delta: &[f64], bound: f64) -> Option<(Vec<f64>, State)> {
    for halvings in 0..40 {
        let scale = 0.5f64.powi(halvings);
        let mut trial: Vec<f64> = theta.iter().zip(delta).map(|(t, d)| t + scale * d).collect();
        for (t, _) in trial.iter_mut().zip(&model.components).filter(|(_, c)| c.is_variance) {
            *t = t.max(0.0);
        }
        trial[0] = trial[0].max(0.05 * theta[0]);
        match State::at(model, &trial) {
            Some(next) if next.deviance <= bound => return Some((trial, next)),
            _ => {}
        }
    }
    None
}
