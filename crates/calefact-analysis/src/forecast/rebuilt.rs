//! Jobs with an exchanger that is not built yet: the fire of the burns, and the heat flow times what the build gains.

use super::answer::answer;
use super::draws::units_of;
use crate::result::{BuildForecast, BuildOutcome, Combination, Draw, Forecasts, JobForecast};
use calefact_stats::dist::normal_quantile;
use calefact_stats::{Interval, Shape};

/// Forecasts of the combinations that have the stove and the exchanger of a build, as if it were built; `None` for the exchanger as it
/// is. The wood burnt in a second stays, since the fire does; so does the time of light-up and burn-down. Heat is taken to reach
/// the water through the exchanger alone. What the gain is not known by is drawn apart from what the heat flow is not known by.
pub fn with_build(forecasts: &Forecasts, build: &BuildForecast) -> Option<Forecasts> {
    let gain = build.gain.as_ref()?;
    let is_it = |c: &Combination| c.exchanger.as_ref() == Some(&build.exchanger) && c.stove == build.stove;
    let places: Vec<usize> = (0..forecasts.combinations.len()).filter(|i| is_it(&forecasts.combinations[*i])).collect();
    let combinations: Vec<Combination> = places.iter().map(|&i| rebuilt(&forecasts.combinations[i], gain)).collect();
    let level = gain.mean.interval.confidence;
    let job = |job: &JobForecast| {
        let vessels: Vec<_> = places.iter().filter_map(|&i| job.vessels.get(i).cloned()).collect();
        let all = || combinations.iter().zip(&vessels);
        let answers = || all().map(|(c, vessel)| answer(&job.job, c, vessel, &forecasts.stretch, level)).collect();
        JobForecast {
            job: job.job.clone(),
            answers: job.answers.as_ref().map(|_| answers()).map_err(Clone::clone),
            vessels,
        }
    };
    let jobs = forecasts.jobs.iter().map(job).collect();
    Some(Forecasts { combinations, stretch: forecasts.stretch.clone(), jobs, ..Forecasts::default() })
}

/// A combination whose heat flow is multiplied by a gain.
fn rebuilt(combination: &Combination, gain: &BuildOutcome) -> Combination {
    let times = |draw: &Draw, by: f64| Draw { power: draw.power * by, ..*draw };
    let drawn = |draws: &[Draw], interval: &Interval| {
        draws.iter().zip(gains(gain.mean.value, interval)).map(|(draw, by)| times(draw, by)).collect()
    };
    Combination {
        centre: times(&combination.centre, gain.mean.value),
        mean: drawn(&combination.mean, &gain.mean.interval),
        next: drawn(&combination.next, gain.next.as_ref().unwrap_or(&gain.mean.interval)),
        ..combination.clone()
    }
}

/// Draws about a ratio whose logarithm is normal and has the interval.
fn gains(value: f64, interval: &Interval) -> impl Iterator<Item = f64> {
    let width = libm::log(interval.upper / interval.lower.max(f64::MIN_POSITIVE));
    let sd = 0.5 * width / normal_quantile(0.5 + 0.5 * interval.confidence);
    units_of("build:gain", Shape::Normal, f64::INFINITY).into_iter().map(move |unit| value * libm::exp(sd * unit))
}
