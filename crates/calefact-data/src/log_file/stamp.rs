//! From a clock cell to a time: a time of day, a date with a time, or a moment.

use crate::fact::ClockForm;
use crate::text::date::{DayOrder, WrittenDate};
use jiff::civil::{Date, DateTime, Time};

/// The time in a clock cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Stamp {
    /// Time of day.
    TimeOfDay {
        /// Seconds since midnight.
        s: f64,
        /// Whether a clock of twelve hours, without am and pm, may show it.
        twelve: bool,
    },
    /// Date and time of day in s.
    Local(Date, f64),
    /// Seconds since 1970 UTC: the cell names its offset.
    Instant(f64),
}

impl Stamp {
    pub(super) const fn form(self) -> ClockForm {
        match self {
            Self::TimeOfDay { .. } => ClockForm::TimeOfDay,
            Self::Local(..) => ClockForm::Date,
            Self::Instant(_) => ClockForm::Offset,
        }
    }
}

/// A cell as read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Reading {
    /// With one meaning.
    Stamp(Stamp),
    /// With a date of two meanings.
    TwoDates([Date; 2]),
}

/// What else is known of the times.
#[derive(Debug, Clone, Copy)]
pub(super) struct Context<'a> {
    /// Pattern that `dataset.toml` states.
    pub(super) format: Option<&'a str>,
    /// Whether the log is a sheet, whose own times have no pattern.
    pub(super) is_sheet: bool,
    /// Day on which the trial began.
    pub(super) date: Option<Date>,
    /// Order of day and month that another date of the log shows.
    pub(super) order: Option<DayOrder>,
}

/// Reads a cell.
pub(super) fn read(text: &str, known: &Context<'_>) -> Option<Reading> {
    let plain = || iso(text).or_else(|| time_of_day(text));
    if let Some(format) = known.format {
        let of_sheet = || plain().filter(|_| known.is_sheet);
        return formatted(format, text).or_else(of_sheet).map(Reading::Stamp);
    }
    plain().map(Reading::Stamp).or_else(|| dated(text, known)).or_else(|| serial(text).map(Reading::Stamp))
}

/// The date in front of the time.
pub(crate) fn date_part(text: &str) -> Option<&str> {
    split_time(text).map(|(date, _)| date)
}

fn formatted(format: &str, text: &str) -> Option<Stamp> {
    if let Ok(dt) = DateTime::strptime(format, text) {
        return Some(Stamp::Local(dt.date(), seconds_of_day(dt.time())));
    }
    let time = Time::strptime(format, text).ok()?;
    Some(Stamp::TimeOfDay { s: seconds_of_day(time), twelve: false })
}

/// `2026-03-28T23:50[:05]`, with a space for the `T`, perhaps with `Z` or an offset.
fn iso(text: &str) -> Option<Stamp> {
    let date = text.get(..10)?;
    let rest = text.get(11..)?;
    let digits = date.as_bytes();
    if digits[4] != b'-' || digits[7] != b'-' || !matches!(text.as_bytes()[10], b'T' | b't' | b' ') {
        return None;
    }
    if let Some(Stamp::TimeOfDay { s, .. }) = time_of_day(rest) {
        let number = |from: usize, to: usize| date.get(from..to)?.parse::<i16>().ok();
        let date = Date::new(number(0, 4)?, number(5, 7)? as i8, number(8, 10)? as i8).ok()?;
        return Some(Stamp::Local(date, s));
    }
    let instant: jiff::Timestamp = text.parse().ok()?;
    Some(Stamp::Instant(instant.as_millisecond() as f64 / 1000.0))
}

/// Year of dates that have none, where nothing tells it.
pub(super) const YEARLESS: i16 = 2001;

/// A date in one of the forms of [`WrittenDate`], and a time. A year that is not written is that of the trial; without one any
/// year does, since only differences count.
fn dated(text: &str, known: &Context<'_>) -> Option<Reading> {
    let (date, time) = split_time(text)?;
    let Stamp::TimeOfDay { s, .. } = time_of_day(time)? else { return None };
    let written = WrittenDate::new(date)?;
    let year = known.date.map_or(YEARLESS, Date::year);
    if let Some(date) = written.date(year, known.order) {
        return Some(Reading::Stamp(Stamp::Local(date, s)));
    }
    let both = written.both(year)?;
    let same_day = both.into_iter().find(|date| known.date == Some(*date));
    Some(same_day.map_or(Reading::TwoDates(both), |date| Reading::Stamp(Stamp::Local(date, s))))
}

/// A text of a date and a time, split before the hour.
fn split_time(text: &str) -> Option<(&str, &str)> {
    // Without a colon the hour is the last number, as in `3/14/2026 5 PM`.
    let last_digit = || text.rfind(|c: char| c.is_ascii_digit()).map(|at| at + 1);
    let end_of_hour = text.find(':').or_else(last_digit)?;
    let hour = text[..end_of_hour].trim_end_matches(|c: char| c.is_ascii_digit()).len();
    let date = text[..hour].trim_end().trim_end_matches(['T', ',']);
    (!date.is_empty() && hour < end_of_hour).then(|| (date.trim_end(), &text[hour..]))
}

/// Days of a spreadsheet from 1954 to 2119, the share of a day, or seconds or milliseconds since 1970: no two of them overlap.
/// Spreadsheets count from 1899-12-30 (ECMA-376, part 1, 18.17.4.1).
fn serial(text: &str) -> Option<Stamp> {
    let number: f64 = fast_float2::parse(text.replacen(',', ".", 1)).ok()?;
    match number {
        n if (0.0..1.0).contains(&n) && text.contains(['.', ',']) => {
            Some(Stamp::TimeOfDay { s: (n * 86_400.0).round(), twelve: false })
        }
        n if (20_000.0..80_000.0).contains(&n) => {
            let days = jiff::Span::new().days(n.floor() as i64);
            let date = Date::constant(1899, 12, 30).checked_add(days).ok()?;
            // A second is 1e-5 of a day; a spreadsheet's float does not hold it exactly.
            Some(Stamp::Local(date, (n.fract() * 86_400_000.0).round() / 1000.0))
        }
        n if (1e9..5e9).contains(&n) => Some(Stamp::Instant(n)),
        n if (1e12..5e12).contains(&n) => Some(Stamp::Instant(n / 1000.0)),
        _ => None,
    }
}

/// `HH:MM[:SS[.fff]]`, 24 h, or with am or pm after it; of those the hour may stand alone.
fn time_of_day(text: &str) -> Option<Stamp> {
    let lower = text.to_ascii_lowercase();
    let lower = lower.trim_end_matches("uhr").trim_end();
    let half = |suffixes: [&str; 2]| suffixes.into_iter().find_map(|suffix| lower.strip_suffix(suffix));
    let (body, half) = match (half(["am", "a.m."]), half(["pm", "p.m."])) {
        (Some(b), _) => (b.trim_end(), Some(0.0)),
        (_, Some(b)) => (b.trim_end(), Some(12.0)),
        _ => (lower, None),
    };
    let mut parts = body.split(':');
    let hour: f64 = two_digits(parts.next()?)?;
    let minute: f64 = match (parts.next(), half) {
        (None, Some(_)) => 0.0,
        (minute, _) => two_digits(minute?)?,
    };
    let second: f64 = parts.next().map_or(Some(0.0), |s| s.replace(',', ".").parse().ok())?;
    let twelve = half.is_none() && (1.0..=12.0).contains(&hour);
    let hour = match half {
        Some(_) if !(1.0..=12.0).contains(&hour) => return None,
        Some(add) => hour % 12.0 + add,
        None => hour,
    };
    let fits = hour < 24.0 && minute < 60.0 && (0.0..60.0).contains(&second) && parts.next().is_none();
    fits.then_some(Stamp::TimeOfDay { s: hour * 3600.0 + minute * 60.0 + second, twelve })
}

fn two_digits(text: &str) -> Option<f64> {
    let fits = (1..=2).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    fits.then(|| text.parse().ok()).flatten()
}

fn seconds_of_day(time: Time) -> f64 {
    let whole = i32::from(time.hour()) * 3600 + i32::from(time.minute()) * 60 + i32::from(time.second());
    f64::from(whole) + f64::from(time.subsec_nanosecond()) * 1e-9
}
