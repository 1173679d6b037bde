//! Words for facts about the times of a log.

use super::{Message, Wording, plural};
use calefact_data::fact::ClockForm;

pub(super) fn backwards(w: &Wording<'_>, cell: &str, by_s: f64, previous_line: u64) -> Message {
    let (cell, by) = (w.quoted(cell), w.time(by_s));
    Message::new(format!("time runs backwards: {cell} is {by} before the reading on line {previous_line}"))
        .hint("correct the time; if the clock was put back, set `time_zone` under [logs] in dataset.toml")
}

pub(super) fn overlap(w: &Wording<'_>, rows: usize, by_s: f64) -> Message {
    let (lie, action) = if rows == 1 { ("lies", "row left out") } else { ("lie", "rows left out") };
    let (rows, by) = (plural(rows, "row"), w.time(by_s));
    Message::new(format!("time steps back by {by}: {rows} {lie} before rows that were read already"))
        .action(format!("{action}, trial kept"))
        .hint("check the memory of the logger; if the rows are no copies, correct their times")
}

pub(super) fn disagree(w: &Wording<'_>, elapsed_s: f64, clock_s: f64) -> Message {
    let (elapsed, clock) = (w.time(elapsed_s), w.time(clock_s));
    Message::new(format!("since the first reading `elapsed` shows {elapsed}, but `clock` {clock}"))
        .hint("correct the times or the unit of `elapsed`; or delete the column that is wrong")
}

/// Times of day, s, before and behind a missing hour.
pub(super) fn hour_skipped(from_s: f64, to_s: f64) -> Message {
    let [from, to] = [from_s, to_s].map(time_of_day);
    Message::new(format!("the clock jumps from {from} to {to}, as where clocks go forward, and `time_zone` is not set"))
        .action("times taken as written")
        .hint("if clocks went forward, set `time_zone = \"Europe/Oslo\"` or your zone under [logs] in dataset.toml")
}

/// "13:05".
fn time_of_day(s: f64) -> String {
    format!("{:02}:{:02}", (s / 3600.0) as u32, (s / 60.0 % 60.0) as u32)
}

pub(super) fn past_twelve(w: &Wording<'_>, cell: &str, of_day_s: f64) -> Message {
    let (cell, taken) = (w.quoted(cell), w.quoted(&time_of_day(of_day_s)));
    Message::new(format!("{cell} lies hours before the last time, as on a clock of twelve hours without am and pm"))
        .action(format!("taken as {taken}, and the times below to follow"))
        .hint("write times of 24 hours, or am and pm behind them")
}

pub(super) fn two_dates(w: &Wording<'_>, cell: &str, dates: &[String; 2]) -> Message {
    let [day_first, month_first] = dates;
    Message::new(format!("the date of {} may be {day_first} or {month_first}", w.quoted(cell))).hint(format!(
        "write the trial's date as {} in the register's {} column; or set `clock_format = \"%d/%m/%Y %H:%M\"` or \
         `clock_format = \"%m/%d/%Y %H:%M\"` under [logs] in dataset.toml",
        w.quoted("2026-03-28"),
        w.quoted("date")
    ))
}

pub(super) fn without_unit(w: &Wording<'_>, header: &str, cell: &str) -> Message {
    let (header, cell) = (w.quoted(header), w.quoted(cell));
    let choices = ["elapsed [min]", "elapsed [s]", "elapsed [h]"].map(|text| w.quoted(text));
    Message::new(format!("column {header} holds numbers such as {cell}, and no unit"))
        .hint(format!("write {} in the header", super::text::choice(&choices)))
}

pub(super) fn mixed(w: &Wording<'_>, cell: &str, form: ClockForm, above: ClockForm) -> Message {
    let words = |form| match form {
        ClockForm::TimeOfDay => "only a time of day",
        ClockForm::Date => "date and time without UTC offset",
        ClockForm::Offset => "date and time with UTC offset",
    };
    Message::new(format!("{} is {}, but the times above are {}", w.quoted(cell), words(form), words(above)))
        .hint("write all times alike; or set `time_zone` under [logs] in dataset.toml and the date in the register")
}

pub(super) fn repeated(w: &Wording<'_>, cell: &str, previous_line: u64) -> Message {
    Message::new(format!("the time {} is the same as on line {previous_line}", w.quoted(cell)))
        .action("first reading kept, this one left out")
}

pub(super) fn skipped(w: &Wording<'_>, cell: &str) -> Message {
    Message::new(format!("{} does not exist on that day: clocks went forward past it", w.quoted(cell)))
        .action("taken as if this clock had not been put forward")
        .hint("if this clock never changes, leave `time_zone` out of [logs] in dataset.toml")
}

pub(super) fn ambiguous(w: &Wording<'_>, cell: &str) -> Message {
    Message::new(format!("{} may be hours and minutes or minutes and seconds", w.quoted(cell)))
        .hint("write `elapsed [h:mm]` or `elapsed [m:ss]` in the header")
}

pub(super) fn unreadable(w: &Wording<'_>, cell: &str) -> Message {
    Message::new(format!("{} is not a time", w.quoted(cell)))
        .action("row left out")
        .hint("if the clock writes its times in another form, set `clock_format` under [logs] in dataset.toml")
}

/// A time zone is stated, but not the date of the first reading.
pub(super) fn date_missing(w: &Wording<'_>, written: Option<&str>) -> Message {
    let text = match written {
        Some(date) => format!("`time_zone` is set, but the date {} of the register cannot be read", w.quoted(date)),
        None => "`time_zone` is set, but neither the register nor [logs] gives the date of the first reading".into(),
    };
    Message::new(text)
        .action("times taken as written, without clock changes")
        .hint("write the date as 2026-03-28 in the register's `date` column")
}
