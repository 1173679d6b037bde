//! Saturated values: a flue probe or analyser that shows its highest value again and again, as it cannot show more.
//!
//! A true peak is round: many readings lie just below it. A cut-off peak has a flat top with next to none just below.

use super::found::Found;
use super::trace::Trace;
use crate::Channel;
use crate::fact::LoggerFault;

/// Readings at the highest value, and the longest run of them, that show a flat top. A log by hand never has so many.
const FEWEST: usize = 12;
const LONGEST_RUN: usize = 6;
/// Times that readings at the top outnumber those just below it, within a typical step. Of a parabola in whole degrees they
/// are 1.4 times as many.
const OUTNUMBER: usize = 4;
/// No range of a flue probe ends below this, degC.
const COLDEST_TOP: f64 = 150.0;

/// The flat top of a channel.
pub(super) fn find(trace: &Trace<'_>) -> Option<Found> {
    let lowest_top = match trace.channel {
        Channel::FlueBefore | Channel::FlueAfter => COLDEST_TOP,
        Channel::FlueCo => 0.0,
        _ => return None,
    };
    let top = trace.v.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let at_top: Vec<usize> = (0..trace.len()).filter(|i| trace.v[*i].to_bits() == top.to_bits()).collect();
    let longest = trace.runs().filter(|r| trace.v[r.start] >= top).map(|r| r.len()).max()?;
    if at_top.len() < FEWEST || longest < LONGEST_RUN || top <= lowest_top {
        return None;
    }
    let near = top - typical_step(trace)?;
    let below = trace.v.iter().filter(|v| **v < top && **v >= near).count();
    let (first, last) = (*at_top.first()?, *at_top.last()?);
    let fact = LoggerFault::Saturated {
        channel: trace.channel,
        value: top,
        readings: at_top.len(),
        from_s: trace.t[first],
        to_s: trace.t[last],
    };
    let rows = at_top.iter().map(|i| trace.row(*i)).collect();
    (below * OUTNUMBER <= at_top.len()).then_some(Found { fact, rows })
}

/// The median of the steps from reading to reading that are not zero.
fn typical_step(trace: &Trace<'_>) -> Option<f64> {
    let mut steps: Vec<f64> = trace.v.windows(2).map(|v| (v[1] - v[0]).abs()).filter(|s| *s > 0.0).collect();
    let at = steps.len() / 2;
    (at < steps.len()).then(|| *steps.select_nth_unstable_by(at, f64::total_cmp).1)
}
