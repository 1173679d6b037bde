//! Dead channels: the same value, or zero, in every reading of a burn that warms the tank.

use super::found::Found;
use super::trace::Trace;
use crate::fact::LoggerFault;
use crate::{Channel, Readings};

/// Readings of the same value that a channel must have to be called dead. A person may note one figure in a few rows.
const FEWEST: usize = 20;
/// Readings of zero that are enough: nobody notes a hot flue as 0.
const FEWEST_ZEROS: usize = 6;
/// Warming of the tank that shows a fire, K.
const WARMED: f64 = 5.0;
/// Zero of the scales that probes show, degC: degrees Celsius and degrees Fahrenheit.
const ZEROS_C: [f64; 2] = [0.0, -160.0 / 9.0];

/// A channel that cannot stand still while the tank warms, and does.
pub(super) fn find(trace: &Trace<'_>, readings: &Readings) -> Option<Found> {
    let zeros = zeros(trace.channel)?;
    let value = *trace.v.first()?;
    let needed = if zeros.iter().any(|z| (value - z).abs() < 1e-6) { FEWEST_ZEROS } else { FEWEST };
    let stands_still = trace.v.iter().all(|v| v.to_bits() == value.to_bits());
    // A flow that a person set and noted may well be the same throughout.
    let may_stand = trace.channel == Channel::Flow && needed == FEWEST;
    if trace.len() < needed || !stands_still || may_stand {
        return None;
    }
    let tank = Trace::new(readings, Channel::Tank);
    let warmed = tank.v.last()? - tank.v.first()?;
    let fact = LoggerFault::Dead { channel: trace.channel, value, readings: trace.len() };
    (warmed > WARMED).then(|| Found { fact, rows: trace.rows_of(0..trace.len()) })
}

/// Values that count as zero, of channels that move while there is a fire. Water into the coil and air may stand still, and
/// carbon monoxide may be too little to show.
const fn zeros(channel: Channel) -> Option<&'static [f64]> {
    match channel {
        Channel::FlueBefore | Channel::FlueAfter | Channel::CoilOut | Channel::Casing => Some(&ZEROS_C),
        Channel::FlueO2 | Channel::FlueCo2 | Channel::Flow => Some(&[0.0]),
        _ => None,
    }
}
