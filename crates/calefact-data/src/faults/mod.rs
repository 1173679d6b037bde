//! Faults of a logger: readings that no water, gas or casing can have taken are found, flagged and left out, and the trial is
//! kept. One file a fault. Only values are judged here; times that step back are found where they are read.
//!
//! Each test states how many readings it needs. Five rows noted by hand are never called faulty for being coarse.

mod dead;
mod found;
mod lifted;
mod saturated;
mod spike;
mod stuck;
mod trace;

use crate::fact::LoggerFault;
use crate::readings::flag;
use crate::{Channel, Readings, TrialKind};
use found::Found;
use trace::Trace;

/// Leaves faulty readings out of their channels and flags them; gives the faults, by channel.
pub(crate) fn leave_out(readings: &mut Readings, kind: TrialKind) -> Vec<LoggerFault> {
    let channels: Vec<Channel> = readings.channels.keys().copied().collect();
    for &channel in &channels {
        readings.leave_out(channel, &out_of_range(readings, channel));
    }
    let found: Vec<Found> = channels.into_iter().flat_map(|channel| find(readings, channel, kind)).collect();
    for fault in &found {
        readings.leave_out(fault.fact.channel(), &fault.rows);
    }
    found.into_iter().map(|fault| fault.fact).collect()
}

/// Rows whose value is outside the range of the channel, of which a finding with its line is made where it is read.
fn out_of_range(readings: &Readings, channel: Channel) -> Vec<usize> {
    let values = readings.channel(channel).unwrap_or_default();
    let is_outside = |v: &f64| !v.is_nan() && !channel.limit().possible.contains(v);
    values.iter().enumerate().filter(|(_, v)| is_outside(v)).map(|(row, _)| row).collect()
}

/// The faults of one channel. A channel that says nothing has no other fault.
fn find(readings: &Readings, channel: Channel, kind: TrialKind) -> Vec<Found> {
    let trace = Trace::new(readings, channel);
    let burn = kind == TrialKind::Burn;
    if let Some(dead) = dead::find(&trace, readings).filter(|_| burn) {
        return vec![dead];
    }
    let saturated = saturated::find(&trace).filter(|_| burn);
    let lifted = lifted::find(&trace);
    let is_stuck = saturated.is_none() && lifted.is_none();
    let stuck = if is_stuck { stuck::find(&trace, readings, burn) } else { None };
    let spikes = spike::find(&trace);
    saturated.into_iter().chain(stuck).chain(lifted).chain(spikes).collect()
}

impl Readings {
    /// Moves values of a channel out of the analysis and flags their readings.
    fn leave_out(&mut self, channel: Channel, rows: &[usize]) {
        let Some(values) = self.channels.get_mut(&channel).filter(|_| !rows.is_empty()) else { return };
        let left_out = self.left_out.entry(channel).or_default();
        for &row in rows {
            left_out.push((row, std::mem::replace(&mut values[row], f64::NAN)));
            if let Some(flags) = self.flags.get_mut(row) {
                *flags |= flag::FAULT;
            }
        }
    }
}

#[cfg(test)]
mod tests;
