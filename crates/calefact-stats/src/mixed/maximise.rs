//! The way to the best variances: Fisher scoring with step halving, variances kept at or above zero.

use super::error::MixedError;
use super::likelihood::{Model, Moments, State};
use nalgebra::DVector;

const ITERATIONS: usize = 200;

/// The best variances, and the model and state of those in play.
pub(super) struct Settled {
    /// Residual variance.
    pub(super) residual: f64,
    /// Variance between blocks; zero where it is left out.
    pub(super) between: f64,
    pub(super) model: Model,
    pub(super) state: State,
}

/// Maximises, then once more without the variance between blocks where that came out as zero.
pub(super) fn settle(model: Model, y: &[f64]) -> Result<Settled, MixedError> {
    let (theta, state) = maximise(&model, start(&model, y)?)?;
    match theta[..] {
        [residual, between] if between > 0.0 => Ok(Settled { residual, between, model, state }),
        _ => {
            let alone = Model { variances: 1, ..model };
            let (theta, state) = maximise(&alone, vec![theta[0]])?;
            Ok(Settled { residual: theta[0], between: 0.0, model: alone, state })
        }
    }
}

/// The least-squares residual variance, half of it between blocks where there are any.
fn start(model: &Model, y: &[f64]) -> Result<Vec<f64>, MixedError> {
    let state = State::at(model, &[1.0]).ok_or(MixedError::RankDeficient)?;
    let n = model.observations as f64;
    let variance = state.squares / (n - model.parameters as f64);
    if !variance.is_finite() || variance <= 1e-24 * y.iter().map(|v| v * v).sum::<f64>() / n {
        return Err(MixedError::NoScatter);
    }
    Ok(vec![variance / model.variances as f64; model.variances])
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

/// Information^-1 score over the variances that are free: not one at zero with the likelihood falling inwards.
fn scoring_step(model: &Model, state: &State, theta: &[f64]) -> Option<Step> {
    let moments = Moments::new(model, state);
    let score = moments.score(&state.covariance);
    let free: Vec<usize> = (0..theta.len()).filter(|&i| theta[i] != 0.0 || score[i] > 0.0).collect();
    let part = DVector::from_iterator(free.len(), free.iter().map(|&i| score[i]));
    let matrix = moments.information(&state.covariance).select_rows(&free).select_columns(&free);
    let solved = matrix.cholesky()?.solve(&part);
    let mut delta = vec![0.0; theta.len()];
    free.iter().zip(solved.iter()).for_each(|(&i, d)| delta[i] = *d);
    Some(Step { delta, gain: part.dot(&solved) })
}

/// The longest of the step's halvings whose deviance is not above `bound`; variances are cut off at zero, the residual one
/// above it.
fn improve(model: &Model, theta: &[f64], delta: &[f64], bound: f64) -> Option<(Vec<f64>, State)> {
    let scales = std::iter::successors(Some(1.0), |scale| Some(0.5 * scale)).take(40);
    scales.into_iter().find_map(|scale| {
        let mut next: Vec<f64> = theta.iter().zip(delta).map(|(t, d)| (t + scale * d).max(0.0)).collect();
        next[0] = next[0].max(0.05 * theta[0]);
        State::at(model, &next).filter(|state| state.deviance <= bound).map(|state| (next, state))
    })
}
