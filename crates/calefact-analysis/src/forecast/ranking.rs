//! Which of several combinations takes the least wood for a job, and how sure that is.

use super::case::Case;
use super::outcome::outcome;
use crate::result::{Combination, Forecasts, JobForecast, ScatterOrigin};

/// For some combinations, by their numbers: in what share of the draws of the mean each takes the least wood for the job. Errors
/// that combinations share are the same in a draw, so that they cancel. None where wood or scatter of any of them is not known.
pub fn least_wood(forecasts: &Forecasts, job: &JobForecast, chosen: &[usize]) -> Option<Vec<f64>> {
    let woods: Vec<Vec<f64>> = chosen.iter().map(|i| wood(forecasts, job, *i)).collect::<Option<_>>()?;
    let draws = forecasts.stretch.len();
    let mut wins = vec![0.0; chosen.len()];
    for draw in 0..draws {
        let least = (0..woods.len()).min_by(|a, b| woods[*a][draw].total_cmp(&woods[*b][draw]))?;
        wins[least] += 1.0 / draws as f64;
    }
    Some(wins)
}

/// Wood of the mean by draw.
fn wood(forecasts: &Forecasts, job: &JobForecast, index: usize) -> Option<Vec<f64>> {
    let (combination, vessel) = (forecasts.combinations.get(index)?, job.vessels.get(index)?);
    if combination.scatter == ScatterOrigin::Unknown || combination.centre.burn_rate.is_nan() {
        return None;
    }
    let case = Case::new(&job.job.task, combination, &vessel.centre);
    let Combination { mean, .. } = combination;
    let inputs = mean.iter().zip(vessel.draws.iter()).zip(&forecasts.stretch);
    Some(inputs.map(|((draw, vessel), stretch)| outcome(draw, vessel, stretch, &case).wood_kg).collect())
}
