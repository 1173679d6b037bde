//! Clock times to seconds: over midnight, and through a change of clocks where the time zone is known.

use super::times::TimeCell;
use crate::fact::ClockForm;
use crate::layout::LogSettings;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{AmbiguousOffset, TimeZone};

/// The time in a clock cell.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Stamp {
    /// Seconds since midnight.
    TimeOfDay(f64),
    /// Date and time of day in s.
    Local(Date, f64),
    /// Seconds since 1970 UTC: the cell names its offset.
    Instant(f64),
}

impl Stamp {
    const fn form(self) -> ClockForm {
        match self {
            Self::TimeOfDay(_) => ClockForm::TimeOfDay,
            Self::Local(..) => ClockForm::Date,
            Self::Instant(_) => ClockForm::Offset,
        }
    }
}

/// Follows one trial's clock from reading to reading.
#[derive(Debug, Clone, Default)]
pub(super) struct Clock<'a> {
    format: Option<&'a str>,
    zone: Option<&'a TimeZone>,
    date: Option<Date>,
    days: i32,
    last_of_day: f64,
    last: f64,
    /// Form of the times so far.
    form: Option<ClockForm>,
    /// Whether a time of day was read whose date is not known.
    undated: bool,
}

impl<'a> Clock<'a> {
    /// A clock for a trial begun on `date`.
    pub(super) fn new(settings: &'a LogSettings, date: Option<&str>) -> Self {
        Self {
            format: settings.clock_format.as_deref(),
            zone: settings.time_zone.as_ref(),
            date: date.and_then(|d| d.parse().ok()).or(settings.date),
            days: 0,
            last_of_day: f64::NEG_INFINITY,
            last: f64::NEG_INFINITY,
            form: None,
            undated: false,
        }
    }

    /// Whether clock changes should have been followed but the day was not known.
    pub(super) const fn lacks_date(&self) -> bool {
        self.zone.is_some() && self.undated
    }

    /// Seconds from an origin that holds for this trial only. A time of day more than 12 h earlier than the last is on the next day.
    pub(super) fn read(&mut self, cell: &[u8]) -> TimeCell {
        let cell = cell.trim_ascii();
        if cell.is_empty() || cell == b"--" {
            return TimeCell::Blank;
        }
        let stamp = self.stamp(cell);
        if let Some(form) = stamp.map(Stamp::form) {
            let above = *self.form.get_or_insert(form);
            if self.moment(form) != self.moment(above) {
                return TimeCell::Mixed(form, above);
            }
        }
        let time = match stamp {
            Some(Stamp::Instant(s)) => Some(TimeCell::Seconds(s)),
            Some(Stamp::Local(date, s)) => self.local(date, s),
            Some(Stamp::TimeOfDay(s)) => self.time_of_day(s),
            None => None,
        };
        if let Some(s) = time.and_then(TimeCell::seconds) {
            self.last = self.last.max(s);
        }
        time.unwrap_or(TimeCell::Unreadable)
    }

    /// The form that a time is followed in: with zone and date, all forms give moments.
    fn moment(&self, form: ClockForm) -> ClockForm {
        match form {
            ClockForm::TimeOfDay if self.zone.is_none() || self.date.is_none() => form,
            ClockForm::Date if self.zone.is_none() => form,
            _ => ClockForm::Offset,
        }
    }

    /// Whether times are taken as written, so that nothing tells of clocks that go forward.
    pub(super) fn is_unzoned(&self) -> bool {
        self.form.is_some_and(|form| self.moment(form) != ClockForm::Offset)
    }

    fn time_of_day(&mut self, s: f64) -> Option<TimeCell> {
        if s < self.last_of_day - 43_200.0 {
            self.days += 1;
        }
        self.last_of_day = s;
        self.undated |= self.date.is_none();
        match self.date.filter(|_| self.zone.is_some()) {
            Some(first) => self.local(first.checked_add(jiff::Span::new().days(self.days)).ok()?, s),
            None => Some(TimeCell::Seconds(f64::from(self.days).mul_add(86_400.0, s))),
        }
    }

    /// Local time to a count of seconds: in the zone if one is given, taking the later of two meanings where the
    /// earlier one would run backwards.
    fn local(&self, date: Date, s: f64) -> Option<TimeCell> {
        let Some(zone) = self.zone else {
            return Some(TimeCell::Seconds(f64::from(day_number(date)).mul_add(86_400.0, s)));
        };
        let whole = s.floor() as i32;
        let time = Time::new((whole / 3600) as i8, (whole / 60 % 60) as i8, (whole % 60) as i8, 0).ok()?;
        let meanings = zone.to_ambiguous_timestamp(DateTime::from_parts(date, time));
        let at = |t: jiff::Timestamp| t.as_second() as f64 + s.fract();
        let skipped = matches!(meanings.offset(), AmbiguousOffset::Gap { .. });
        let first = meanings.compatible().ok().map(at)?;
        let seconds = if first < self.last { meanings.later().ok().map(at)? } else { first };
        Some(if skipped { TimeCell::Skipped(seconds) } else { TimeCell::Seconds(seconds) })
    }

    fn stamp(&self, cell: &[u8]) -> Option<Stamp> {
        let text = std::str::from_utf8(cell).ok()?;
        match self.format {
            Some(format) => formatted(format, text),
            None => iso(text).or_else(|| time_of_day(text).map(Stamp::TimeOfDay)),
        }
    }
}

fn formatted(format: &str, text: &str) -> Option<Stamp> {
    if let Ok(dt) = DateTime::strptime(format, text) {
        return Some(Stamp::Local(dt.date(), seconds_of_day(dt.time())));
    }
    Time::strptime(format, text).ok().map(|t| Stamp::TimeOfDay(seconds_of_day(t)))
}

/// `2026-03-28T23:50[:05]`, with a space for the `T`, perhaps with `Z` or an offset.
fn iso(text: &str) -> Option<Stamp> {
    let date = text.get(..10)?;
    let rest = text.get(11..)?;
    let digits = date.as_bytes();
    if digits[4] != b'-' || digits[7] != b'-' || !matches!(text.as_bytes()[10], b'T' | b't' | b' ') {
        return None;
    }
    if let Some(s) = time_of_day(rest) {
        let number = |from: usize, to: usize| date.get(from..to)?.parse::<i16>().ok();
        let date = Date::new(number(0, 4)?, number(5, 7)? as i8, number(8, 10)? as i8).ok()?;
        return Some(Stamp::Local(date, s));
    }
    let instant: jiff::Timestamp = text.parse().ok()?;
    Some(Stamp::Instant(instant.as_millisecond() as f64 / 1000.0))
}

/// `HH:MM[:SS[.fff]]`, 24 h, or with `am` or `pm` after it.
fn time_of_day(text: &str) -> Option<f64> {
    let lower = text.to_ascii_lowercase();
    let (body, half) = match (lower.strip_suffix("am"), lower.strip_suffix("pm")) {
        (Some(b), _) => (b.trim_end(), Some(0.0)),
        (_, Some(b)) => (b.trim_end(), Some(12.0)),
        _ => (lower.as_str(), None),
    };
    let mut parts = body.split(':');
    let hour: f64 = two_digits(parts.next()?)?;
    let minute: f64 = two_digits(parts.next()?)?;
    let second: f64 = parts.next().map_or(Some(0.0), |s| s.replace(',', ".").parse().ok())?;
    let hour = match half {
        Some(_) if !(1.0..=12.0).contains(&hour) => return None,
        Some(add) => hour % 12.0 + add,
        None => hour,
    };
    let fits = hour < 24.0 && minute < 60.0 && (0.0..60.0).contains(&second) && parts.next().is_none();
    fits.then_some(hour * 3600.0 + minute * 60.0 + second)
}

fn two_digits(text: &str) -> Option<f64> {
    let fits = (1..=2).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    fits.then(|| text.parse().ok()).flatten()
}

fn seconds_of_day(time: Time) -> f64 {
    let whole = i32::from(time.hour()) * 3600 + i32::from(time.minute()) * 60 + i32::from(time.second());
    f64::from(whole) + f64::from(time.subsec_nanosecond()) * 1e-9
}

/// Days since 1970-01-01.
fn day_number(date: Date) -> i32 {
    let epoch = Date::constant(1970, 1, 1);
    epoch.until(date).map_or(0, |span| span.get_days())
}

#[cfg(test)]
mod tests {
    use super::{Clock, TimeCell};
    use crate::layout::LogSettings;
    use jiff::tz::TimeZone;

    fn times(settings: &LogSettings, date: Option<&str>, cells: &[&str]) -> Vec<f64> {
        let mut clock = Clock::new(settings, date);
        let read = |c: &&str| match clock.read(c.as_bytes()) {
            TimeCell::Seconds(s) => s,
            other => panic!("{c}: {other:?}"),
        };
        let all: Vec<f64> = cells.iter().map(read).collect();
        all.iter().map(|t| (t - all[0]) / 60.0).collect()
    }

    fn zone(name: &str) -> LogSettings {
        LogSettings { time_zone: TimeZone::get(name).ok(), ..LogSettings::default() }
    }

    #[test]
    fn over_midnight_by_time_of_day_alone() {
        let none = LogSettings::default();
        assert_eq!(times(&none, None, &["23:50", "00:00", "00:10:30", "12:00"]), [0.0, 10.0, 20.5, 730.0]);
        assert_eq!(times(&none, None, &["11:50 PM", "12:05 am", "1:00 AM"]), [0.0, 15.0, 70.0]);
    }

    #[test]
    fn date_times_with_and_without_offset() {
        let none = LogSettings::default();
        assert_eq!(times(&none, None, &["2026-02-28 23:50", "2026-03-01T00:10:00"]), [0.0, 20.0]);
        assert_eq!(times(&none, None, &["2026-03-29T01:50:00+01:00", "2026-03-29T03:10:00+02:00"]), [0.0, 20.0]);
    }

    /// European summer time began on 2026-03-29 at 02:00 and ends on 2026-10-25 at 03:00 (Directive 2000/84/EC: last
    /// Sundays of March and October, 01:00 UTC).
    #[test]
    fn through_a_change_of_clocks() {
        let oslo = zone("Europe/Oslo");
        assert_eq!(times(&oslo, Some("2026-03-29"), &["01:50", "03:10"]), [0.0, 20.0]);
        assert_eq!(times(&oslo, Some("2026-03-28"), &["23:50", "01:50", "03:10"]), [0.0, 120.0, 140.0]);
        assert_eq!(
            times(&oslo, Some("2026-10-25"), &["02:40", "02:50", "02:00", "02:50", "03:00"]),
            [0.0, 10.0, 20.0, 70.0, 80.0]
        );
        assert_eq!(times(&oslo, None, &["2026-10-25 02:50", "2026-10-25 02:10"]), [0.0, 20.0]);
    }

    #[test]
    fn stated_pattern() {
        let settings = LogSettings { clock_format: Some("%d.%m.%Y %H:%M".into()), ..LogSettings::default() };
        assert_eq!(times(&settings, None, &["28.02.2026 23:50", "01.03.2026 00:10"]), [0.0, 20.0]);
    }
}
