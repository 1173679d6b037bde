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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::result::{Draw, Extent, Stretch, VesselDraw, VesselDraws};
    use crate::settings::{Job, ReferenceJob};

    fn combination(burn_rates: [f64; 4]) -> Combination {
        let draw = |burn_rate| Draw { power: 4000.0, fixed_s: 600.0, burn_rate, moisture: f64::NAN };
        Combination {
            stove: None,
            fuel: None,
            exchanger: None,
            trials: [].into(),
            centre: draw(1e-3),
            mean: burn_rates.map(draw).to_vec(),
            next: vec![],
            scatter: ScatterOrigin::Own,
            extent: Extent { water_m3: (0.1, 0.2), stored: (1e7, 3e7), hottest: 60.0, longest_s: 9e3, load_kg: 6.0 },
            kindling_kg: 0.3,
            net_dry: 1.9e7,
            price: f64::NAN,
            vessel: String::new(),
            assumed: vec![],
        }
    }

    /// The same draw is held against the same draw: rates that differ much between draws and little within them are told apart.
    #[test]
    fn shares_are_counted_draw_by_draw() {
        let task = ReferenceJob { water_m3: 0.15, from: 10.0, to: 50.0, ambient: 10.0, fuel_moisture: None };
        let vessel =
            VesselDraws { draws: [VesselDraw { capacity: 5e3, loss: 4.0 }; 4].into(), ..VesselDraws::default() };
        let job = JobForecast { job: Job::new("dishes", task), vessels: vec![vessel; 2], answers: Ok(vec![]) };
        let mut forecasts = Forecasts {
            combinations: vec![combination([1e-3, 2e-3, 3e-3, 4e-3]), combination([1.1e-3, 2.1e-3, 3.1e-3, 3.9e-3])],
            stretch: vec![Stretch { power: 0.0, burn_rate: 0.0, hot: 0.5 }; 4],
            ..Forecasts::default()
        };
        assert_eq!(least_wood(&forecasts, &job, &[0, 1]), Some(vec![0.75, 0.25]));
        forecasts.combinations[1].scatter = ScatterOrigin::Unknown;
        assert_eq!(least_wood(&forecasts, &job, &[0, 1]), None, "no scatter is known");
    }
}
