//! Words for faults of loggers.

use super::text::list;
use super::{Message, Wording, plural};
use calefact_data::Channel;
use calefact_data::fact::{LoggerFault, SpikeReading};
use calefact_units::Kind;

/// Readings of a spike that a message names.
const NAMED: usize = 3;

/// The message on a fault.
pub(super) fn message(w: &Wording<'_>, fault: &LoggerFault) -> Message {
    let column = w.column(fault.channel().name());
    let (text, action) = match fault {
        LoggerFault::Spike { channel, readings } => {
            let many = if readings.len() == 1 { "reading left out" } else { "readings left out" };
            (format!("{column} reads {}, far from the readings beside", spikes(w, *channel, readings)), many)
        }
        LoggerFault::Stuck { channel, value, readings, from_s, to_s } => (
            format!(
                "{column} stands still at {} from {}, over {readings} readings, while the fire and other probes move",
                value_words(w, *channel, *value),
                w.minutes_range(*from_s, *to_s)
            ),
            "readings left out",
        ),
        LoggerFault::Dead { channel, value, readings } => (
            format!("{column} reads {} in all {readings} readings", value_words(w, *channel, *value)),
            "column left out",
        ),
        LoggerFault::Saturated { channel, value, readings, from_s, to_s } => (
            format!(
                "{column} reads its highest value, {}, {readings} times from {}: the probe cannot show more",
                value_words(w, *channel, *value),
                w.minutes_range(*from_s, *to_s)
            ),
            "readings left out",
        ),
        LoggerFault::Lifted { from_s, before, last } => (
            format!(
                "{column} falls from {} to {} from {} on, faster than water cools, and stays down to the end",
                w.temperature(*before, 1),
                w.temperature(*last, 1),
                w.minutes(*from_s)
            ),
            "readings left out",
        ),
    };
    Message::new(text).action(format!("{action}, trial kept")).hint(hint(fault))
}

/// "85.0 degC at 10 min and 3.0 degC at 14 min".
fn spikes(w: &Wording<'_>, channel: Channel, readings: &[SpikeReading]) -> String {
    let one = |r: &SpikeReading| format!("{} at {}", value_words(w, channel, r.value), w.minutes(r.at_s));
    let mut parts: Vec<String> = readings.iter().take(NAMED).map(one).collect();
    if readings.len() > NAMED {
        parts.push(format!("{} more", plural(readings.len() - NAMED, "time")));
    }
    list(&parts)
}

fn value_words(w: &Wording<'_>, channel: Channel, value: f64) -> String {
    match channel.kind() {
        Kind::Temperature => w.temperature(value, 1),
        Kind::MassFlow => w.flow(value),
        _ => w.share(value),
    }
}

const fn hint(fault: &LoggerFault) -> &'static str {
    match fault {
        LoggerFault::Spike { .. } => {
            "check the plug and the wire of the probe, and that it stays where it measures; after a stir, log two readings or \
             more"
        }
        LoggerFault::Stuck { .. } => "check the wire of the probe and the logger's memory",
        LoggerFault::Dead { .. } => "check that the probe is connected, or leave the column out of the log",
        LoggerFault::Saturated { .. } => "use a probe and a range that go higher",
        LoggerFault::Lifted { .. } => "end the log before the probe is lifted out or water is drawn off",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(fault: &LoggerFault) -> String {
        let message = message(&Wording::plain(), fault);
        format!("{}; {}", message.text, message.action.unwrap_or_default())
    }

    #[test]
    fn faults_in_words() {
        let reading = |at_s, value| SpikeReading { at_s, value };
        let spike = |readings: Vec<SpikeReading>| LoggerFault::Spike { channel: Channel::Tank, readings };
        assert_eq!(
            text(&spike(vec![reading(600.0, 85.0)])),
            "`tank` reads 85.0 degC at 10 min, far from the readings beside; reading left out, trial kept"
        );
        assert_eq!(
            text(&spike(vec![reading(60.0, 85.0); 5])),
            "`tank` reads 85.0 degC at 1 min, 85.0 degC at 1 min, 85.0 degC at 1 min and 2 times more, far from the readings beside; readings left out, trial kept"
        );
        assert_eq!(
            text(&LoggerFault::Lifted { from_s: 3600.0, before: 61.3, last: 21.0 }),
            "`tank` falls from 61.3 degC to 21.0 degC from 60 min on, faster than water cools, and stays down to the end; readings left out, trial kept"
        );
        let (channel, value, readings, from_s, to_s) = (Channel::FlueBefore, 431.2, 40, 1200.0, 2400.0);
        assert_eq!(
            text(&LoggerFault::Stuck { channel, value, readings, from_s, to_s }),
            "`flue_before` stands still at 431.2 degC from 20 to 40 min, over 40 readings, while the fire and other probes move; readings left out, trial kept"
        );
        assert_eq!(
            text(&LoggerFault::Saturated { channel, value: 500.0, readings, from_s, to_s }),
            "`flue_before` reads its highest value, 500.0 degC, 40 times from 20 to 40 min: the probe cannot show more; readings left out, trial kept"
        );
        assert_eq!(
            text(&LoggerFault::Dead { channel: Channel::FlueO2, value: 0.0, readings }),
            "`flue_o2` reads 0 % in all 40 readings; column left out, trial kept"
        );
    }
}
