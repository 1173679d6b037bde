//! Stuck probes: constant to the last digit for long, while the fire and other probes move.
//!
//! A tank that boils, a tank at its peak, a cold flue and a coarse display stand still as well; each has its exception.

use super::found::Found;
use super::trace::Trace;
use crate::fact::LoggerFault;
use crate::{Channel, Readings};
use std::ops::Range;

/// Readings and seconds that a probe must stand still. A log by hand has fewer readings.
const FEWEST: usize = 20;
const SHORTEST_S: f64 = 600.0;
/// A tank above this may boil and so stand still, degC; water boils at 85 degC at 4500 m.
const MAY_BOIL: f64 = 85.0;
/// The way that the tank should have gone meanwhile, K.
const MISSED: f64 = 3.0;
/// Share of that way that it makes up at once when the probe comes free.
const MADE_UP: f64 = 0.5;
/// Share of the flue's heat before that shows a fire as strong as before.
const AS_STRONG: f64 = 0.7;
/// Times a probe of gas or coil must stand still longer than it does elsewhere in the log.
const LONGER: usize = 5;
/// A flue or casing below this may be cold and so stand still, degC.
const MAY_BE_COLD: f64 = 60.0;

/// The longest time that a probe is stuck.
pub(super) fn find(trace: &Trace<'_>, readings: &Readings, is_burn: bool) -> Option<Found> {
    let longest = trace.runs().max_by_key(ExactSizeIterator::len)?;
    let duration = trace.t[longest.end - 1] - trace.t[longest.start];
    if longest.len() < FEWEST || duration < SHORTEST_S || longest.len() == trace.len() {
        return None;
    }
    let value = trace.v[longest.start];
    let is_stuck = match trace.channel {
        Channel::Tank => value < MAY_BOIL && tank_is_stuck(trace, &longest, readings, is_burn),
        Channel::FlueBefore | Channel::FlueAfter | Channel::Casing => {
            is_burn && value > MAY_BE_COLD && is_odd_one_out(trace, &longest) && others_move(trace, &longest, readings)
        }
        Channel::CoilOut => is_burn && is_odd_one_out(trace, &longest) && tank_moves(trace, &longest, readings),
        _ => false,
    };
    let (from_s, to_s) = (trace.t[longest.start], trace.t[longest.end - 1]);
    let fact = LoggerFault::Stuck { channel: trace.channel, value, readings: longest.len(), from_s, to_s };
    // The first of the equal readings was still read.
    is_stuck.then(|| Found { fact, rows: trace.rows_of(longest.start + 1..longest.end) })
}

/// A tank that was on its way before and stands still: it makes up the way at once when the probe comes free, or the fire
/// goes on as before.
fn tank_is_stuck(trace: &Trace<'_>, run: &Range<usize>, readings: &Readings, is_burn: bool) -> bool {
    let duration = trace.t[run.end - 1] - trace.t[run.start];
    let missed = rate_before(trace, run, duration) * duration;
    if missed.is_nan() || missed.abs() < MISSED {
        return false;
    }
    match trace.v.get(run.end) {
        Some(next) => (next - trace.v[run.start]) / missed >= MADE_UP,
        None => is_burn && fire_goes_on(trace, run, duration, readings),
    }
}

/// Rate over as long a time before a run as the run lasts, or over what there is of it, K/s.
fn rate_before(trace: &Trace<'_>, run: &Range<usize>, duration: f64) -> f64 {
    let from = trace.between(trace.t[run.start] - duration, trace.t[run.start]).start;
    (trace.v[run.start] - trace.v[from]) / (trace.t[run.start] - trace.t[from])
}

/// Whether a flue probe, which moves, stands as high during a run as before it.
fn fire_goes_on(trace: &Trace<'_>, run: &Range<usize>, duration: f64, readings: &Readings) -> bool {
    let (start, end) = (trace.t[run.start], trace.t[run.end - 1]);
    [Channel::FlueBefore, Channel::FlueAfter].into_iter().any(|channel| {
        let flue = Trace::new(readings, channel);
        let mean = |part: Range<usize>| flue.v[part.clone()].iter().sum::<f64>() / part.len() as f64;
        let (before, during) = (flue.between(start - duration, start), flue.between(start, end));
        flue.range(during.clone()) > 0.0 && mean(during) > AS_STRONG * mean(before)
    })
}

/// Whether a run is far longer than all others.
fn is_odd_one_out(trace: &Trace<'_>, longest: &Range<usize>) -> bool {
    let next = trace.runs().filter(|r| r != longest).map(|r| r.len()).max();
    next.is_none_or(|next| longest.len() >= LONGER * next)
}

/// Whether the tank or the other flue probe moves during a run.
fn others_move(trace: &Trace<'_>, run: &Range<usize>, readings: &Readings) -> bool {
    let (start, end) = (trace.t[run.start], trace.t[run.end - 1]);
    let flue = [Channel::FlueBefore, Channel::FlueAfter].into_iter().filter(|c| *c != trace.channel);
    let moves = |channel| {
        let other = Trace::new(readings, channel);
        let part = other.between(start, end);
        let steps = other.v[part.clone()].windows(2).filter(|v| v[0].to_bits() != v[1].to_bits()).count();
        2 * steps > part.len()
    };
    tank_moves(trace, run, readings) || flue.into_iter().any(moves)
}

fn tank_moves(trace: &Trace<'_>, run: &Range<usize>, readings: &Readings) -> bool {
    let tank = Trace::new(readings, Channel::Tank);
    tank.range(tank.between(trace.t[run.start], trace.t[run.end - 1])) >= MISSED
}
