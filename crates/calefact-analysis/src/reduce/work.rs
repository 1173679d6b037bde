//! A trial between its log and its measurement model: window, features and inputs as they are being found.

use super::capacity::Capacity;
use super::features::Features;
use super::inputs::Inputs;
use super::slots::Slot;
use crate::phases::Fire;
use crate::series::{self, Series};
use calefact_data::{Channel, Readings, RegisterRow, TrialKind};

/// A trial on its way through the reduction.
pub(crate) struct Work<'w> {
    /// Register row.
    pub(crate) row: &'w RegisterRow,
    /// Its log.
    pub(crate) readings: &'w Readings,
    /// Tank curve over the window.
    pub(crate) window: Series,
    /// Features so far.
    pub(crate) features: Features,
    /// Inputs so far.
    pub(crate) inputs: Inputs,
    /// What the log shows of the fire of a burn.
    pub(crate) fire: Fire,
}

impl Work<'_> {
    /// Heat capacity and loss coefficient at their best estimates.
    pub(crate) fn capacity(&self) -> Capacity {
        self.inputs.capacity(&self.features)
    }

    /// What of a time range lies inside the window, if that holds enough readings for a line.
    pub(crate) fn inside(&self, (from, to): (f64, f64)) -> Option<(f64, f64)> {
        let t = &self.window.t;
        let part = (from.max(*t.first()?), to.min(*t.last()?));
        (series::between(t, part.0, part.1).len() >= 3).then_some(part)
    }

    /// Where the log has a `power` column, its time average over the window takes the place of `heater_power`.
    pub(crate) fn mean_power(&mut self) {
        let Some(power) = self.readings.channel(Channel::Power) else { return };
        if self.row.kind != TrialKind::ReferenceHeater || !power.iter().any(|p| p.is_finite()) {
            return;
        }
        let filled = Series { t: self.readings.elapsed_s.clone(), tank: power.to_vec(), air: Vec::new() }.finite();
        let (Some(&start), Some(&end)) = (self.window.t.first(), self.window.t.last()) else { return };
        let cut = filled.between(start, end);
        let mean = cut.tank_total() / (end - start);
        let mut slot = self.inputs.slots[Slot::Power as usize].clone();
        slot.value = mean;
        self.inputs.set(Slot::Power, slot);
    }
}
