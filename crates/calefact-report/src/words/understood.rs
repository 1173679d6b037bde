//! What was read of a trial, in one line: a person sees at a glance whether the program read what they meant.

use super::range::number;
use super::{Wording, plural};
use calefact_data::{Channel, Readings, RegisterRow};
use calefact_units::Kind;

/// "trial b1: burn of 2031-03-04, 5 readings in 48 min: `tank` from 11.0 degC to 41.0 degC; fire out at 36 min".
pub fn trial_line(w: &Wording<'_>, row: &RegisterRow, readings: &Readings) -> String {
    let date = row.date.as_ref().map(|date| format!(" of {date}")).unwrap_or_default();
    let length = w.minutes(readings.elapsed_s.last().copied().unwrap_or(0.0));
    let channels = readings.channels.iter().filter_map(|(channel, values)| span(w, *channel, values));
    let events = readings.events.iter().filter_map(|event| {
        let at = readings.elapsed_s.get(event.row)?;
        Some(format!("{} at {}", event.text, w.minutes(*at)))
    });
    let parts: Vec<String> = channels.chain(events).collect();
    format!(
        "trial {}: {}{date}, {} in {length}: {}",
        row.trial,
        row.kind.name(),
        plural(readings.len(), "reading"),
        parts.join("; ")
    )
}

/// A channel from its first value to its last.
fn span(w: &Wording<'_>, channel: Channel, values: &[f64]) -> Option<String> {
    let mut known = values.iter().copied().filter(|v| !v.is_nan());
    let first = known.next()?;
    let last = known.next_back().unwrap_or(first);
    let shown = |value| match channel.kind() {
        Kind::Temperature => w.temperature(value, 1),
        kind => number(w, value, Some(kind)),
    };
    let [first, last] = [first, last].map(shown);
    Some(format!("{} from {first} to {last}", w.column(channel.name())))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Units;
    use calefact_data::readings::Remark;
    use calefact_data::{TrialKind, Water};

    #[test]
    fn a_trial_in_a_line_in_the_units_of_the_reader() {
        let row = RegisterRow {
            date: Some("2031-03-04".into()),
            ..RegisterRow::bare("b1", TrialKind::Burn, "b1.csv", "drum", Water::Volume(0.1))
        };
        let readings = Readings {
            elapsed_s: vec![0.0, 720.0, 2880.0],
            channels: [(Channel::Tank, vec![f64::NAN, 10.0, 40.0]), (Channel::Ambient, vec![f64::NAN; 3])].into(),
            events: vec![Remark { row: 1, text: "fire out".into() }],
            ..Readings::default()
        };
        let line = |units| trial_line(&Wording { units, ..Wording::plain() }, &row, &readings);
        let start = "trial b1: burn of 2031-03-04, 3 readings in 48 min: `tank` from ";
        assert_eq!(line(Units::Metric), format!("{start}10.0 degC to 40.0 degC; fire out at 12 min"));
        assert_eq!(line(Units::Us), format!("{start}50.0 degF to 104.0 degF; fire out at 12 min"));
    }
}
