//! Spikes: one to three readings far from those on both sides, and a first or last tank reading far from the next.
//!
//! Both sides must lie to the same side of the spike, so that a step, which stays, is not called one: water poured in, a
//! stirred tank, a pump that starts.

use super::found::Found;
use super::trace::Trace;
use crate::Channel;
use crate::fact::{LoggerFault, SpikeReading};
use std::ops::Range;

/// Readings that a channel must have: with fewer, one odd row is as likely a thing that happened.
pub(super) const FEWEST: usize = 12;
/// Readings that a spike may have, and neighbours looked at on either side.
pub(super) const WIDEST: usize = 3;
/// Times the pace of the channel that a value may go and come back between its neighbours.
pub(super) const PACES: f64 = 4.0;
/// A tank does not jump so far from one reading to the next beyond its pace, K: neither can a fire do that, nor a stir, which
/// evens out layers of a few kelvins (ten probes in one vessel being heated differed by up to 4.3 K).
pub(super) const TANK_JUMP: f64 = 10.0;

/// Go and return that each channel may show beyond its pace, K; common practice, no source. `None` for channels that jump:
/// pumps, heaters and gas analysers are switched.
const fn allowance(channel: Channel) -> Option<f64> {
    match channel {
        // Layers of warm water that pass the probe.
        Channel::Tank => Some(5.0),
        Channel::CoilIn => Some(8.0),
        // Sun, a door.
        Channel::Ambient => Some(15.0),
        // Surges of a coil that circulates by itself.
        Channel::CoilOut => Some(50.0),
        Channel::Casing => Some(60.0),
        // A flare, an open door.
        Channel::FlueBefore | Channel::FlueAfter => Some(300.0),
        _ => None,
    }
}

/// All spikes of a channel as one fault.
pub(super) fn find(trace: &Trace) -> Option<Found> {
    let allowance = allowance(trace.channel)?;
    if trace.len() < FEWEST {
        return None;
    }
    let pace = trace.pace();
    let inner = inner(trace, allowance, pace);
    let ends = ends(trace, pace);
    let mut spikes: Vec<usize> = inner.into_iter().chain(ends).collect();
    spikes.sort_unstable();
    spikes.dedup();
    let reading = |i: &usize| SpikeReading { at_s: trace.t[*i], value: trace.v[*i] };
    let readings: Vec<SpikeReading> = spikes.iter().map(reading).collect();
    let rows = spikes.iter().map(|i| trace.rows[*i]).collect();
    (!spikes.is_empty()).then_some(Found { fact: LoggerFault::Spike { channel: trace.channel, readings }, rows })
}

/// Spikes with readings on both sides.
fn inner(trace: &Trace, allowance: f64, pace: f64) -> Vec<usize> {
    let (mut kept, mut spikes): (Vec<usize>, Vec<usize>) = (Vec::new(), Vec::new());
    let mut i = 0;
    while i < trace.len() {
        let left = &kept[kept.len().saturating_sub(WIDEST)..];
        let is_spike = |width: &usize| stands_out(trace, i..i + width, left, (allowance, pace));
        let width = (1..=WIDEST.min(trace.len() - i)).rev().find(is_spike).unwrap_or(0);
        spikes.extend(i..i + width);
        if width == 0 {
            kept.push(i);
        }
        i += width.max(1);
    }
    spikes
}

/// Whether all readings of a run lie beyond the medians on both sides of it by more than is allowed, and to the same side.
fn stands_out(trace: &Trace, run: Range<usize>, left: &[usize], (allowance, pace): (f64, f64)) -> bool {
    let right: Vec<usize> = (run.end..trace.len().min(run.end + WIDEST)).collect();
    let (Some(&before), Some(&after)) = (left.last(), right.first()) else { return false };
    let allowed = allowance + PACES * pace * (trace.t[after] - trace.t[before]);
    let beyond = |side: &[usize]| {
        let middle = median(side.iter().map(|i| trace.v[*i]).collect());
        let mut off = trace.v[run.clone()].iter().map(|v| v - middle);
        let sign = off.clone().next().unwrap_or(0.0).signum();
        off.all(|d| d * sign > allowed).then_some(sign)
    };
    beyond(left).is_some_and(|sign| beyond(&right) == Some(sign))
}

/// A first or last tank reading that jumps: the probe was not in the water yet, or no longer.
fn ends(trace: &Trace, pace: f64) -> Vec<usize> {
    if trace.channel != Channel::Tank {
        return Vec::new();
    }
    let last = trace.len() - 1;
    let jumps = |(end, next, side): &(usize, usize, Range<usize>)| {
        let allowed = TANK_JUMP + PACES * pace * (trace.t[*next] - trace.t[*end]).abs();
        trace.v[side.clone()].iter().all(|v| (trace.v[*end] - v).abs() > allowed)
    };
    let ends = [(0, 1, 1..1 + WIDEST), (last, last - 1, last - WIDEST..last)];
    ends.into_iter().filter(jumps).map(|(end, ..)| end).collect()
}

/// The middle of at most three values; of two the mean.
fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let n = values.len();
    if n % 2 == 1 { values[n / 2] } else { 0.5 * (values[n / 2 - 1] + values[n / 2]) }
}
