//! What was read of logs and trials, a line each: a person sees at a glance whether the program read what they meant.

use super::range::number;
use super::text::{printable, single_line};
use super::{Wording, list, plural};
use calefact_data::{Channel, ClockTime, ReadAs, ReadColumn, Readings, RegisterRow};
use calefact_units::Kind;

/// Headers that were not read and are named.
const UNREAD: usize = 6;

/// "b1.csv, b2.csv and 5 more: `t` is `elapsed` in min, `Barrel` is `tank` in degF; not read: `Battery`". `more` logs are not named.
pub fn columns_line(w: &Wording<'_>, logs: &[String], more: usize, columns: &[ReadColumn]) -> String {
    let logs = if more > 0 { format!("{} and {more} more", logs.join(", ")) } else { list(logs) };
    let read: Vec<String> = columns.iter().filter_map(|column| column_words(w, column)).collect();
    let unread: Vec<&ReadColumn> = columns.iter().filter(|c| c.column.is_none()).collect();
    let mut names: Vec<String> = unread.iter().take(UNREAD).map(|c| w.quoted(&c.header)).collect();
    names.extend((unread.len() > UNREAD).then(|| format!("{} more", unread.len() - UNREAD)));
    let unread = if names.is_empty() { String::new() } else { format!("; not read: {}", list(&names)) };
    single_line(printable(format!("{logs}: {}{unread}", read.join(", "))))
}

fn column_words(w: &Wording<'_>, read: &ReadColumn) -> Option<String> {
    let column = w.column(read.column?);
    let unit = read.unit.map(|unit| format!(" in {unit}")).unwrap_or_default();
    let name = read.header.split(['[', '(']).next().unwrap_or_default().trim().to_lowercase();
    let is_name = Some(name.as_str()) == read.column;
    Some(if is_name { column + &unit } else { format!("{} is {column}{unit}", w.quoted(&read.header)) })
}

/// "trial b1: burn of 2031-03-04, 5 readings in 48 min, 10:05 to 10:53: `tank` from 11.0 degC to 41.0 degC; fire out at 36 min".
pub fn trial_line(w: &Wording<'_>, row: &RegisterRow, readings: &Readings, read_as: &ReadAs) -> String {
    let date = row.date.as_ref().map(|date| format!(" of {date}")).unwrap_or_default();
    let length = w.minutes(readings.elapsed_s.last().copied().unwrap_or(0.0));
    let clock = read_as.clock.as_ref().map(|clock| clock_span(clock, row.date.as_deref())).unwrap_or_default();
    let channels = readings.channels.iter().filter_map(|(channel, values)| span(w, *channel, values));
    let events = readings.events.iter().filter_map(|event| {
        let at = readings.elapsed_s.get(event.row)?;
        Some(format!("{} at {}", event.text, w.minutes(*at)))
    });
    let parts: Vec<String> = channels.chain(events).collect();
    single_line(printable(format!(
        "trial {}: {}{date}, {} in {length}{clock}: {}",
        row.trial,
        row.kind.name(),
        plural(readings.len(), "reading"),
        parts.join("; ")
    )))
}

/// ", 10:05 to 10:53", with a day where it is another than that before it.
fn clock_span([first, last]: &[ClockTime; 2], date: Option<&str>) -> String {
    let time = |time: &ClockTime, before: Option<&str>| {
        let day = time.date.as_deref().filter(|day| Some(*day) != before);
        let day = day.map(|day| format!("{day} ")).unwrap_or_default();
        let utc = if time.is_utc { " UTC" } else { "" };
        format!("{day}{:02}:{:02}{utc}", time.minutes / 60, time.minutes % 60)
    };
    format!(", {} to {}", time(first, date), time(last, first.date.as_deref()))
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
        let line = |units| trial_line(&Wording { units, ..Wording::plain() }, &row, &readings, &ReadAs::default());
        let start = "trial b1: burn of 2031-03-04, 3 readings in 48 min: `tank` from ";
        assert_eq!(line(Units::Metric), format!("{start}10.0 degC to 40.0 degC; fire out at 12 min"));
        assert_eq!(line(Units::Us), format!("{start}50.0 degF to 104.0 degF; fire out at 12 min"));
    }

    #[test]
    fn times_of_day_and_days_that_differ() {
        let row = RegisterRow {
            date: Some("2031-03-04".into()),
            ..RegisterRow::bare("b1", TrialKind::Burn, "b1.csv", "drum", Water::Volume(0.1))
        };
        let readings = Readings { elapsed_s: vec![0.0, 2880.0], ..Readings::default() };
        let line = |first: Option<&str>, last: Option<&str>| {
            let time = |date: Option<&str>, minutes| ClockTime { date: date.map(Into::into), minutes, is_utc: false };
            let clock = Some([time(first, 1430), time(last, 38)]);
            trial_line(&Wording::plain(), &row, &readings, &ReadAs { clock, ..ReadAs::default() })
        };
        let start = "trial b1: burn of 2031-03-04, 2 readings in 48 min, ";
        assert_eq!(line(None, None), format!("{start}23:50 to 00:38: "));
        assert_eq!(line(Some("2031-03-04"), Some("2031-03-05")), format!("{start}23:50 to 2031-03-05 00:38: "));
        assert_eq!(line(Some("2031-04-03"), Some("2031-04-03")), format!("{start}2031-04-03 23:50 to 00:38: "));
    }

    #[test]
    fn columns_of_like_logs_in_a_line() {
        let column = |header: &str, column, unit| ReadColumn { header: header.into(), column, unit };
        let columns = [
            column("t", Some("elapsed"), Some("min")),
            column("Tank [degC]", Some("tank"), Some("degC")),
            column("Battery", None, None),
        ];
        let line = |logs: &[&str], more| {
            let logs: Vec<String> = logs.iter().map(|log| (*log).to_owned()).collect();
            columns_line(&Wording::plain(), &logs, more, &columns)
        };
        let read = "`t` is `elapsed` in min, `tank` in degC; not read: `Battery`";
        assert_eq!(line(&["b1.csv", "b2.csv"], 0), format!("b1.csv and b2.csv: {read}"));
        assert_eq!(line(&["b1.csv", "b2.csv"], 5), format!("b1.csv, b2.csv and 5 more: {read}"));
    }
}
