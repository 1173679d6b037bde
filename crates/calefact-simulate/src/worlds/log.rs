//! The log of a burn as it was written: which rows, and what went wrong with them.

use super::burns::by_hand;
use super::draws::Draws;
use super::spec::{Logs, Trouble, World};
use crate::forward::Forward;
use crate::rig::Rig;
use calefact_data::readings::Remark;
use calefact_data::{Channel, Readings};

/// How far the layer of the tank probe lies from the mean of the tank at full heat flow, K.
const LAYER: (f64, f64) = (-2.0, 2.0);
/// Limit of the tank probe within which it drifts, K.
const DRIFT: (f64, f64) = (-0.5, 0.5);
/// How far a spike lies off, K.
const SPIKE: (f64, f64) = (15.0, 40.0);

/// What the tank probe is at, against the mean of the tank: layers, and drift. A drift takes the place of the probe's constant
/// error: from one place within its limits to another.
pub(super) fn disturb(world: &World, rig: &Rig<'_>, forward: &Forward, exact: &mut Readings, draws: &mut Draws) {
    let Some(tank) = exact.channels.get_mut(&Channel::Tank) else { return };
    let end = forward.course.end_s();
    if world.has(Trouble::Layered) {
        let layer = draws.between(LAYER);
        let offset = |&t: &f64| layer * forward.course.at(&forward.course.lagged, t);
        tank.iter_mut().zip(&exact.elapsed_s).for_each(|(reading, t)| *reading += offset(t));
    }
    if world.has(Trouble::Drift) {
        let (first, last) = (draws.between(DRIFT), draws.between(DRIFT));
        let offset = |&t: &f64| (last - first).mul_add(t / end, first);
        let constant = rig.instrument(Channel::Tank.name());
        tank.iter_mut().zip(&exact.elapsed_s).for_each(|(reading, t)| *reading += offset(t) - constant.error(*reading));
    }
}

/// Readings that are far off: two of the tank, one of the coil's outlet.
pub(super) fn spike(world: &World, shown: &mut Readings, draws: &mut Draws) {
    if !world.has(Trouble::Spikes) {
        return;
    }
    for (channel, count) in [(Channel::Tank, 2), (Channel::CoilOut, 1)] {
        let Some(values) = shown.channels.get_mut(&channel) else { continue };
        for _ in 0..count {
            let row = draws.below(values.len());
            values[row] += draws.between(SPIKE).round();
        }
    }
}

/// The rows a hand notes down; a logger keeps all.
pub(super) fn noted(world: &World, number: usize, shown: Readings, draws: &mut Draws) -> Readings {
    if !by_hand(world, number) {
        return shown;
    }
    let rows = if world.logs == Logs::TenRows { 10 } else { 5 };
    let kept = times(rows, shown.len(), draws);
    let mut noted = selected(&shown, &kept);
    // The tank is read each time, coil and flue three times in the middle.
    for (channel, values) in &mut noted.channels {
        let always = matches!(channel, Channel::Tank | Channel::Ambient);
        let blank = values.iter_mut().enumerate().filter(|(row, _)| !always && ![3, 5, 6].contains(row));
        blank.for_each(|(_, value)| *value = f64::NAN);
    }
    noted
}

/// Rows of the grid at which a hand notes: the first, the last, and uneven ones between.
fn times(rows: usize, grid: usize, draws: &mut Draws) -> Vec<usize> {
    let gap = (grid - 1) as f64 / (rows - 1) as f64;
    let mut between = |i: usize| draws.between((-0.3, 0.3)).mul_add(gap, gap * i as f64).round() as usize;
    let middle: Vec<usize> = (1..rows - 1).map(&mut between).collect();
    std::iter::once(0).chain(middle).chain([grid - 1]).collect()
}

fn selected(shown: &Readings, kept: &[usize]) -> Readings {
    let pick = |values: &[f64]| kept.iter().map(|&row| values[row]).collect::<Vec<_>>();
    let place = |row: usize| kept.partition_point(|&k| k < row).min(kept.len() - 1);
    Readings {
        elapsed_s: pick(&shown.elapsed_s),
        channels: shown.channels.iter().map(|(&channel, values)| (channel, pick(values))).collect(),
        flags: vec![0; kept.len()],
        events: shown.events.iter().map(|e| Remark { row: place(e.row), text: e.text.clone() }).collect(),
        ..Readings::default()
    }
}
