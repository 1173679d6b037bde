//! One trial as it is logged: the true course read by imperfect instruments, with the register row beside it.

use super::curve::{Course, VOLUME};
use super::design::Log;
use super::shared::{self, CHAR, Shared, WOOD};
use calefact_data::{Channel, MoistureBasis, Readings, RegisterRow, TrialKind, Water};
use calefact_physics::fuel;
use rand::RngExt;
use rand_distr::{Distribution, StandardNormal};
use rand_pcg::Pcg64;
use std::collections::BTreeMap;

/// Length of a burn and of a night, s.
pub(crate) const BURN: f64 = 3600.0;
/// See [`BURN`].
pub(crate) const NIGHT: f64 = 28_800.0;

/// A trial ready to be reduced.
#[derive(Debug)]
pub(crate) struct Trial {
    pub(crate) row: RegisterRow,
    pub(crate) readings: Readings,
    pub(crate) course: Course,
}

/// A standard normal number.
pub(crate) fn normal(rng: &mut Pcg64) -> f64 {
    StandardNormal.sample(rng)
}

/// A burn of a true efficiency (net, credited): fuel, moisture, delay and start differ from burn to burn.
pub(crate) fn burn(
    rng: &mut Pcg64,
    log: &Log,
    shared: &Shared,
    names: (String, String, String),
    efficiency: f64,
    loss: f64,
    longest_delay: f64,
) -> Trial {
    let (fuel, kindling) = (4.2 + 0.2 * rng.random_range(-1.0..1.0), 0.3);
    let char_left = 0.15 + 0.05 * rng.random_range(-1.0..1.0);
    let moisture = 0.18 + 0.02 * rng.random_range(-1.0..1.0);
    let energy = (fuel + kindling) * fuel::net_as_fired(WOOD, moisture) - char_left * CHAR;
    let delay = longest_delay * rng.random_range(0.0..1.0);
    let start = rng.random_range(12.0..16.0);
    let heat = efficiency * energy / (BURN - delay);
    let course = Course { heat, delay, loss, start, air: (rng.random_range(10.0..14.0), 1.0 / 3600.0) };
    let weighed = |kg: f64| Some(round(shared.scale(kg), shared::SCALE_STEP));
    let (trial, stove, fuel_id) = names;
    let row = RegisterRow {
        stove: Some(stove),
        fuel: Some(fuel_id),
        fuel_mass: weighed(fuel),
        kindling_mass: weighed(kindling),
        leftover_fuel: Some(0.0),
        leftover_char: weighed(char_left),
        fuel_moisture: Some(round(shared.moisture(moisture), shared::MOISTURE_STEP)),
        moisture_basis: Some(MoistureBasis::Wet),
        ..row(&trial, TrialKind::Burn, shared)
    };
    Trial { row, readings: read(rng, log, shared, &course, BURN, log.burn_every), course }
}

/// A standing-loss night.
pub(crate) fn night(rng: &mut Pcg64, log: &Log, shared: &Shared, name: &str, loss: f64) -> Trial {
    let start = rng.random_range(55.0..60.0);
    let course = Course { heat: 0.0, delay: 0.0, loss, start, air: (rng.random_range(10.0..14.0), -0.3 / 3600.0) };
    let readings = read(rng, log, shared, &course, NIGHT, log.night_every);
    Trial { row: row(name, TrialKind::StandingLoss, shared), readings, course }
}

/// Readings at even spacing: probe error, drifting and white noise, display.
fn read(rng: &mut Pcg64, log: &Log, shared: &Shared, course: &Course, length: f64, every: f64) -> Readings {
    let count = (length / every).round() as usize;
    let elapsed_s: Vec<f64> = (0..=count).map(|i| i as f64 * every).collect();
    let rho = libm::exp(-every / log.memory);
    let mut drift = normal(rng);
    let mut tank = Vec::with_capacity(elapsed_s.len());
    for true_tank in course.tank(&elapsed_s, 300.0) {
        let noise = log.drift * drift + log.white * normal(rng);
        tank.push(round(shared.tank(true_tank) + noise, log.step));
        drift = rho * drift + (1.0 - rho * rho).sqrt() * normal(rng);
    }
    let air = elapsed_s.iter().map(|&t| round(shared.air(course.air_at(t)), shared::AIR_STEP)).collect();
    Readings {
        flags: vec![0; elapsed_s.len()],
        channels: BTreeMap::from([(Channel::Tank, tank), (Channel::Ambient, air)]),
        elapsed_s,
        ..Readings::default()
    }
}

fn round(x: f64, step: f64) -> f64 {
    (x / step).round() * step
}

fn row(trial: &str, kind: TrialKind, shared: &Shared) -> RegisterRow {
    RegisterRow {
        line: 2,
        ..RegisterRow::bare(trial, kind, format!("logs/{trial}.csv"), "tank", Water::Volume(shared.water(VOLUME)))
    }
}
