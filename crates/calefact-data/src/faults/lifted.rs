//! A tank that falls away at the end: the probe was lifted out of the water, or water was drawn off. What follows says nothing
//! of the trial.

use super::found::Found;
use super::spike::{FEWEST, PACES, TANK_JUMP, WIDEST};
use super::trace::Trace;
use crate::Channel;
use crate::fact::LoggerFault;

/// Share of the readings that may follow the fall.
const MOST: f64 = 0.5;
/// A step down by more than this beyond the pace is part of the fall, K: a probe takes some readings to follow.
const STEP: f64 = 0.5;
/// Water that warms again by more than this was poured in, and the probe is still in it, K.
const WARMED: f64 = 1.0;

/// The readings from the fall on, two at least; a single one is a spike.
pub(super) fn find(trace: &Trace<'_>) -> Option<Found> {
    if trace.channel != Channel::Tank || trace.len() < FEWEST {
        return None;
    }
    let pace = trace.pace();
    let earliest = (trace.len() as f64 * (1.0 - MOST)).ceil() as usize;
    let start = (earliest..trace.len()).find_map(|i| fall_to(trace, i, pace))?;
    let fact =
        LoggerFault::Lifted { from_s: trace.t[start], before: trace.v[start - 1], last: trace.v[trace.len() - 1] };
    (trace.len() - start > 1).then(|| Found { fact, rows: trace.rows_of(start..trace.len()) })
}

/// The first reading of a fall that is plain at a reading: all from that one on lie far below those before the fall, and do
/// not warm again.
fn fall_to(trace: &Trace<'_>, i: usize, pace: f64) -> Option<usize> {
    let falls = |j: &usize| trace.v[*j - 1] - trace.v[*j] > STEP + PACES * pace * (trace.t[*j] - trace.t[*j - 1]);
    let start = (1..=i).rev().take_while(falls).last()?;
    let allowed = TANK_JUMP + PACES * pace * (trace.t[i] - trace.t[start - 1]);
    let lowest = |readings: &[f64]| readings.iter().copied().fold(f64::INFINITY, f64::min);
    // A spike before is no fall after it.
    let before = lowest(&trace.v[start.checked_sub(WIDEST + 1)?..start]);
    let after = &trace.v[i..];
    let far = after.iter().all(|v| *v < before - allowed);
    (far && after[after.len() - 1] <= lowest(after) + WARMED).then_some(start)
}
