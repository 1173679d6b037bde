//! The way to the best variances: Fisher scoring with step halving, variances kept at or above zero.

use crate::mixed::MixedError;
use crate::mixed::state::{Model, Moments, State};
use nalgebra::DVector;

const ITERATIONS: usize = 200;

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
