//! Spikes: one to three readings far from those on both sides, and a first or last tank reading far from the next.
//!
//! Both sides must lie to the same side of the spike, so that a step, which stays, is not called one: water poured in, a
//! stirred tank, a pump that starts.

use super::found::Found;
use super::trace::Trace;
use crate::Channel;
use crate::fact::{LoggerFault, SpikeReading};
use std::cell::LazyCell;
use std::ops::{Deref, Range};

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
pub(super) fn find(trace: &Trace<'_>) -> Option<Found> {
    let allowance = allowance(trace.channel)?;
    if trace.len() < FEWEST {
        return None;
    }
    // Few channels have a reading that needs the pace to be judged.
    let pace = LazyCell::new(|| trace.pace());
    let inner = inner(trace, allowance, &pace);
    let ends = ends(trace, &pace);
    let mut spikes: Vec<usize> = inner.into_iter().chain(ends).collect();
    spikes.sort_unstable();
    spikes.dedup();
    let reading = |i: &usize| SpikeReading { at_s: trace.t[*i], value: trace.v[*i] };
    let readings: Vec<SpikeReading> = spikes.iter().map(reading).collect();
    let rows = spikes.iter().map(|i| trace.row(*i)).collect();
    (!spikes.is_empty()).then_some(Found { fact: LoggerFault::Spike { channel: trace.channel, readings }, rows })
}

/// Spikes with readings on both sides.
fn inner(trace: &Trace<'_>, allowance: f64, pace: &impl Deref<Target = f64>) -> Vec<usize> {
    // The last readings that are no spike, the newest first.
    let (mut kept, mut spikes): (Vec<usize>, Vec<usize>) = (Vec::with_capacity(WIDEST), Vec::new());
    let mut i = 0;
    while i < trace.len() {
        let left = kept.first().zip(middle(kept.iter().map(|i| trace.v[*i])));
        // Most readings lie so near to those before them that no run from here can stand out.
        let far = left.filter(|(_, middle)| (trace.v[i] - middle).abs() > allowance);
        let width = far.map_or(0, |(&last, middle)| {
            let allowed = |after: usize| allowance + PACES * **pace * (trace.t[after] - trace.t[last]);
            let is_spike = |width: &usize| stands_out(trace, i..i + width, middle, allowed(i + width));
            (1..=WIDEST.min(trace.len() - 1 - i)).rev().find(is_spike).unwrap_or(0)
        });
        spikes.extend(i..i + width);
        if width == 0 {
            kept.truncate(WIDEST - 1);
            kept.insert(0, i);
        }
        i += width.max(1);
    }
    spikes
}

/// Whether all readings of a run, which is not the last, lie beyond the medians on both sides of it by more than is allowed, and to
/// the same side.
fn stands_out(trace: &Trace<'_>, run: Range<usize>, left: f64, allowed: f64) -> bool {
    let beyond = |middle: f64| {
        let mut off = trace.v[run.clone()].iter().map(|v| v - middle);
        let sign = off.clone().next().unwrap_or(0.0).signum();
        off.all(|d| d * sign > allowed).then_some(sign)
    };
    let right = middle(trace.v[run.end..].iter().copied());
    beyond(left).is_some_and(|sign| right.and_then(beyond) == Some(sign))
}

/// The median of the first three values, or of fewer; of two the mean.
fn middle(mut values: impl Iterator<Item = f64>) -> Option<f64> {
    let a = values.next()?;
    let Some(b) = values.next() else { return Some(a) };
    Some(values.next().map_or(0.5 * (a + b), |c| a.max(b).min(c).max(a.min(b))))
}

/// A first or last tank reading that jumps: the probe was not in the water yet, or no longer.
fn ends(trace: &Trace<'_>, pace: &impl Deref<Target = f64>) -> Vec<usize> {
    if trace.channel != Channel::Tank {
        return Vec::new();
    }
    let last = trace.len() - 1;
    let jumps = |(end, next, side): &(usize, usize, Range<usize>)| {
        let beyond = |allowed: f64| trace.v[side.clone()].iter().all(|v| (trace.v[*end] - v).abs() > allowed);
        beyond(TANK_JUMP) && beyond(TANK_JUMP + PACES * **pace * (trace.t[*next] - trace.t[*end]).abs())
    };
    let ends = [(0, 1, 1..1 + WIDEST), (last, last - 1, last - WIDEST..last)];
    ends.into_iter().filter(jumps).map(|(end, ..)| end).collect()
}
