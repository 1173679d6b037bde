//! The answer of one combination to one job.

use super::case::{self, Case};
use super::outcome::{Outcome, highest, outcome, tank_at};
use super::spread::{interval, spread};
use crate::result::{Combination, CurvePoint, Draw, Forecast, Refusal, Spread, Stretch, VesselDraw, VesselDraws};
use crate::settings::Job;
use calefact_stats::Interval;

/// Points of the temperature curve, the start aside.
const POINTS: u32 = 10;
/// Part of a load that goes on with the load before.
const SLACK: f64 = 0.05;

/// No stretch: the best estimate.
const MIDDLE: Stretch = Stretch { power: 0.0, burn_rate: 0.0, hot: 0.5 };

/// Answer of a combination to a job.
pub(super) fn answer(
    job: &Job,
    combination: &Combination,
    vessel: &VesselDraws,
    stretch: &[Stretch],
    level: f64,
) -> Result<Forecast, Refusal> {
    let case = Case::new(&job.task, combination, &vessel.centre);
    let centre = outcome(&combination.centre, &vessel.centre, &MIDDLE, &case);
    if centre.time_s.is_infinite() {
        return Err(Refusal::CannotHold { highest: highest(centre.power, &vessel.centre, job.task.ambient) });
    }
    let run = |draws: &[Draw]| -> Vec<Outcome> {
        let inputs = draws.iter().zip(vessel.draws.iter()).zip(stretch);
        inputs.map(|((draw, vessel), stretch)| outcome(draw, vessel, stretch, &case)).collect()
    };
    let (mean, next) = (run(&combination.mean), run(&combination.next));
    let of = |pick: fn(&Outcome) -> f64| {
        let all = |outcomes: &[Outcome]| outcomes.iter().map(pick).collect();
        spread(pick(&centre), all(&mean), all(&next), level)
    };
    let wood = centre.wood_kg.is_finite().then(|| of(|o| o.wood_kg));
    let likely = if next.is_empty() { &mean } else { &next };
    let within = |deadline: f64| likely.iter().filter(|o| o.time_s <= deadline).count() as f64 / likely.len() as f64;
    let mut assumed = [combination.assumed.clone(), vessel.assumed.clone()].concat();
    assumed.sort_unstable();
    assumed.dedup();
    Ok(Forecast {
        time: of(|o| o.time_s),
        wood,
        cost: wood.filter(|_| combination.price.is_finite()).map(|wood| scaled(wood, combination.price)),
        refuels: wood.and_then(|wood| refuels(wood, combination)),
        in_time: job.deadline_s.map(within),
        after_standing: job.standing_s.map(|s| after_standing(s, &case, vessel, level)),
        curve: curve(&centre, likely, &case, vessel, level),
        outside: case::outside(&job.task, centre.time_s, &combination.extent),
        assumed,
    })
}

/// A spread times a positive number.
fn scaled(spread: Spread, by: f64) -> Spread {
    let part = |i: Interval| Interval { lower: by * i.lower, upper: by * i.upper, ..i };
    Spread { value: by * spread.value, mean: part(spread.mean), next: spread.next.map(part) }
}

/// Loads after the first, by loads as large as the largest of the combination's burns.
fn refuels(wood: Spread, combination: &Combination) -> Option<(u32, u32)> {
    let load = combination.extent.load_kg;
    let kindling = if combination.kindling_kg.is_finite() { combination.kindling_kg } else { 0.0 };
    let further = |wood: f64| (((wood - kindling) / load - SLACK).ceil() - 1.0).max(0.0) as u32;
    let range = wood.next.unwrap_or(wood.mean);
    (load > 0.0).then(|| (further(range.lower), further(range.upper)))
}

/// Temperature of the hot water after it has stood: T = Ta + (T1 - Ta) exp(-U t/C).
fn after_standing(standing_s: f64, case: &Case, vessel: &VesselDraws, level: f64) -> Spread {
    let task = &case.task;
    let at = |v: &VesselDraw| {
        let capacity = v.capacity + water_capacity(case);
        task.ambient + (task.to - task.ambient) * libm::exp(-v.loss * standing_s / capacity)
    };
    let mean = interval(vessel.draws.iter().map(at).collect(), level);
    Spread { value: at(&vessel.centre), mean, next: Some(mean) }
}

/// Heat capacity of the job's water at its end temperature, J/K.
fn water_capacity(case: &Case) -> f64 {
    use calefact_physics::water;
    case.task.water_m3 * water::density(case.task.from) * water::heat_capacity(case.task.to)
}

/// The tank over the time that the best estimate takes.
fn curve(centre: &Outcome, likely: &[Outcome], case: &Case, vessel: &VesselDraws, level: f64) -> Vec<CurvePoint> {
    let point = |i: u32| {
        let elapsed_s = centre.time_s * f64::from(i) / f64::from(POINTS);
        let tanks = likely.iter().zip(vessel.draws.iter()).map(|(o, v)| tank_at(elapsed_s, o, v, case));
        let interval = interval(tanks.collect(), level);
        CurvePoint { elapsed_s, tank: tank_at(elapsed_s, centre, &vessel.centre, case), interval }
    };
    (0..=POINTS).map(point).collect()
}
