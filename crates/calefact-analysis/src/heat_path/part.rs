//! Which part of a log the exchanger's means are drawn from, and what another choice of its ends would have given.
//!
//! Where the log shows the phases, the strength of the fire is smoothed over a width, and the metal gives off heat later than
//! the fire: each end may lie [`OPEN`] widths to either side (rectangular, GUM 4.3.7). With few readings the first and the
//! last stretch of the log hold light-up and burn-down and are left out; where coil and flue were read a few times between,
//! the tank counts from the first to the last of these times, so that its heat flow is the one that they stand beside.

use super::inputs::CHANNELS;
use super::means;
use super::slots::PathSlot as P;
use super::steady::steady_tank;
use crate::burn::Burn;
use crate::fact::TrialError;
use crate::phases::Phases;
use crate::reduce::capacity::Capacity;
use crate::reduce::slots::Slot;
use crate::series;
use calefact_data::Readings;

/// Widths by which each end of the steady part is left open.
const OPEN: f64 = 1.0;
/// Largest share of the part by which an end is moved.
const MOST: f64 = 0.2;
/// Fewest tank readings of which the first and the last stretch are left out.
const ENOUGH: usize = 4;
/// Fewest tank readings from the first to the last reading of coil or flue.
const BESIDE: usize = 3;

/// Start and end, s, of the part that means are drawn from.
pub(super) fn range(burn: &Burn, phases: &Phases) -> Option<(f64, f64)> {
    let (start, end) = phases.steady()?;
    let t = &burn.series.t;
    if phases.certain || t.len() < ENOUGH {
        return Some((start, end));
    }
    let inner = (start.max(t[1]), end.min(t[t.len() - 2]));
    let holds = |part: &(f64, f64), least: usize| series::between(t, part.0, part.1).len() >= least;
    let beside = beside(burn.readings, inner).filter(|part| holds(part, BESIDE));
    Some(beside.unwrap_or(if holds(&inner, 2) { inner } else { (start, end) }))
}

/// From the first to the last reading of coil or flue within a part.
fn beside(readings: &Readings, part: (f64, f64)) -> Option<(f64, f64)> {
    let rows = series::between(&readings.elapsed_s, part.0, part.1);
    let read = |row: &usize| {
        let mut columns = CHANNELS.iter().filter_map(|(_, channel)| readings.channel(*channel));
        columns.any(|cells| cells[*row].is_finite())
    };
    let (first, last) = (rows.clone().find(read)?, rows.rev().find(read)?);
    Some((readings.elapsed_s[first], readings.elapsed_s[last]))
}

/// Width of the smoothing, no more than a share of the part.
fn width(burn: &Burn, (start, end): (f64, f64)) -> f64 {
    burn.fire.width.min(MOST * (end - start))
}

/// What moving an end of the part changes in the inputs, as standard uncertainties with their signs.
pub(super) struct Moved {
    /// Which end.
    pub(super) error: TrialError,
    /// Changes by slot.
    pub(super) changes: Vec<(P, f64)>,
}

/// Changes of the inputs by the choice of both ends; none with few readings.
pub(super) fn moved(burn: &Burn, phases: &Phases, range: (f64, f64), capacity: Capacity) -> Vec<Moved> {
    if !phases.certain {
        return Vec::new();
    }
    let by = OPEN * width(burn, range);
    let either = |error, earlier, later| {
        let (before, after) = (values(burn, earlier, capacity), values(burn, later, capacity));
        let half = |(slot, value): (P, f64)| {
            let other = after.iter().find(|(s, _)| *s == slot)?.1;
            Some((slot, 0.5 * (other - value) / 3.0_f64.sqrt())).filter(|(_, change)| change.is_finite())
        };
        Moved { error, changes: before.into_iter().filter_map(half).collect() }
    };
    let (start, end) = range;
    vec![
        either(TrialError::SteadyStart, (start - by, end), (start + by, end)),
        either(TrialError::SteadyEnd, (start, end - by), (start, end + by)),
    ]
}

/// Plain means of the columns over a part, and the heat flow into the tank.
fn values(burn: &Burn, range: (f64, f64), capacity: Capacity) -> Vec<(P, f64)> {
    let mean = |(slot, channel)| Some((slot, means::plain_mean(burn.readings, channel, range)?));
    let mut values: Vec<(P, f64)> = CHANNELS.into_iter().filter_map(mean).collect();
    let Some(tank) = steady_tank(burn.series, burn.enthalpies, range) else { return values };
    if !values.iter().any(|(slot, _)| *slot == P::CoilIn) {
        values.push((P::CoilIn, tank.tank_mean));
    }
    let lost = burn.inputs.value(Slot::LossCoefficient) * (tank.tank_mean - tank.air_mean);
    let stored = capacity.water_kg * tank.enthalpy_slope + capacity.vessel * tank.tank_slope;
    values.push((P::SteadyNoise, stored + lost));
    values
}
