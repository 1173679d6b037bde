//! Clock times to seconds: over midnight, past noon without am and pm, and through a change of clocks where the time zone is
//! known. What one cell says is in [`super::stamp`].

use super::stamp::{self, Context, Reading, Stamp, YEARLESS};
use super::times::TimeCell;
use crate::ClockTime;
use crate::fact::ClockForm;
use crate::layout::LogSettings;
use crate::text::date::{DayOrder, WrittenDate, order_on, shown_order};
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{AmbiguousOffset, TimeZone};

/// Half a day, s.
const HALF_DAY_S: f64 = 43_200.0;
/// Longest time between two readings at which a clock of twelve hours is taken to have passed noon or midnight, s.
const LONGEST_STEP_S: f64 = 6.0 * 3600.0;

/// Follows one trial's clock from reading to reading.
#[derive(Debug, Clone, Default)]
pub(super) struct Clock<'a> {
    format: Option<&'a str>,
    is_sheet: bool,
    zone: Option<&'a TimeZone>,
    date: Option<Date>,
    /// Order of day and month, once a date has shown it.
    order: Option<DayOrder>,
    days: i32,
    last_of_day: f64,
    /// Half days added to a clock of twelve hours, s.
    halves: f64,
    /// Whether no time so far tells that the clock has 24 hours.
    maybe_twelve: bool,
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
            is_sheet: settings.style.is_sheet,
            zone: settings.time_zone.as_ref(),
            date: date.and_then(|d| WrittenDate::new(d)?.full()).or(settings.date),
            order: None,
            days: 0,
            last_of_day: f64::NEG_INFINITY,
            halves: 0.0,
            maybe_twelve: true,
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
        let stamp = match self.stamp(cell) {
            Some(Reading::Stamp(stamp)) => stamp,
            Some(Reading::TwoDates(dates)) => return TimeCell::TwoDates(dates),
            None => return TimeCell::Unreadable,
        };
        let form = stamp.form();
        let above = *self.form.get_or_insert(form);
        if self.moment(form) != self.moment(above) {
            return TimeCell::Mixed(form, above);
        }
        let time = match stamp {
            Stamp::Instant(s) => Some(TimeCell::Seconds(s)),
            Stamp::Local(date, s) => self.local(date, s),
            Stamp::TimeOfDay { s, twelve } => self.time_of_day(s, twelve),
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

    /// Reads a cell. The first date that shows the order of day and month, by itself or since it is the trial's, settles it for
    /// those below.
    fn stamp(&mut self, cell: &[u8]) -> Option<Reading> {
        let text = std::str::from_utf8(cell).ok()?;
        let (format, is_sheet) = (self.format, self.is_sheet);
        let reading = stamp::read(text, &Context { format, is_sheet, date: self.date, order: self.order })?;
        if self.order.is_none() && matches!(reading, Reading::Stamp(Stamp::Local(..))) {
            let of_trial = |date| order_on(date, self.date?);
            self.order = stamp::date_part(text).and_then(|date| shown_order(date).or_else(|| of_trial(date)));
        }
        Some(reading)
    }

    /// A time of this clock, s, as a person reads it; none where no clock was read.
    pub(super) fn shown(&self, s: f64) -> Option<ClockTime> {
        let moment = self.moment(self.form?);
        let minutes = |s: f64| (s.rem_euclid(86_400.0) / 60.0) as u32;
        if moment == ClockForm::TimeOfDay {
            return Some(ClockTime { date: None, minutes: minutes(s), is_utc: false });
        }
        let zone = self.zone.filter(|_| moment == ClockForm::Offset);
        let at = jiff::Timestamp::from_second(s.floor() as i64).ok()?;
        let local = zone.unwrap_or(&TimeZone::UTC).to_datetime(at);
        let minutes = u32::try_from(i32::from(local.hour()) * 60 + i32::from(local.minute())).ok()?;
        // A date without its year is read in a year that is not meant.
        let is_dated = self.date.is_some() || local.year() != YEARLESS;
        let date = is_dated.then(|| local.date().to_string());
        Some(ClockTime { date, minutes, is_utc: moment == ClockForm::Offset && zone.is_none() })
    }

    fn time_of_day(&mut self, s: f64, twelve: bool) -> Option<TimeCell> {
        self.maybe_twelve &= twelve;
        let step = s + self.halves - self.last_of_day;
        let passes = self.maybe_twelve && (-HALF_DAY_S..0.0).contains(&step) && step + HALF_DAY_S <= LONGEST_STEP_S;
        if passes {
            self.halves += HALF_DAY_S;
        } else if step < -HALF_DAY_S {
            self.days += 1;
        }
        let of_day = s + self.halves;
        self.last_of_day = of_day;
        self.undated |= self.date.is_none();
        let days = self.days + (of_day / 86_400.0).floor() as i32;
        let time = match self.date.filter(|_| self.zone.is_some()) {
            Some(first) => self.local(first.checked_add(jiff::Span::new().days(days)).ok()?, of_day % 86_400.0)?,
            None => TimeCell::Seconds(f64::from(self.days).mul_add(86_400.0, of_day)),
        };
        Some(match time {
            TimeCell::Seconds(seconds) if passes => TimeCell::PastTwelve { seconds, of_day: of_day % 86_400.0 },
            time => time,
        })
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
        let mut read = |c: &&str| clock.read(c.as_bytes()).seconds().unwrap_or_else(|| panic!("{c}"));
        let all: Vec<f64> = cells.iter().map(&mut read).collect();
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
        assert_eq!(times(&none, None, &["4 PM", "4:30 p.m.", "5PM", "17:15 Uhr"]), [0.0, 30.0, 60.0, 75.0]);
    }

    /// A wall clock has no am and pm.
    #[test]
    fn past_twelve_without_am_and_pm() {
        let none = LogSettings::default();
        let noon = times(&none, None, &["11:40", "12:20", "1:05", "2:00", "11:50", "12:10", "1:00"]);
        assert_eq!(noon, [0.0, 40.0, 85.0, 140.0, 730.0, 750.0, 800.0]);
        let mut clock = Clock::new(&none, None);
        let read = |clock: &mut Clock<'_>, text: &str| clock.read(text.as_bytes());
        assert_eq!(read(&mut clock, "12:20"), TimeCell::Seconds(44_400.0));
        assert_eq!(read(&mut clock, "1:05"), TimeCell::PastTwelve { seconds: 47_100.0, of_day: 47_100.0 });
        let mut steps_back = Clock::new(&none, None);
        for text in ["12:50", "12:05"] {
            assert!(matches!(read(&mut steps_back, text), TimeCell::Seconds(_)), "{text}: a slip, not half a day");
        }
        let mut full = Clock::new(&none, None);
        for text in ["13:10", "12:20", "1:05"] {
            assert!(matches!(read(&mut full, text), TimeCell::Seconds(_)), "{text}: this clock has 24 hours");
        }
    }

    #[test]
    fn dates_in_other_forms() {
        let none = LogSettings::default();
        assert_eq!(times(&none, None, &["24.03.2026 22:58:00", "25.03.2026 00:08:00"]), [0.0, 70.0]);
        assert_eq!(times(&none, None, &["3/14/2026 11:50 PM", "3/15/2026 12:10 AM"]), [0.0, 20.0]);
        assert_eq!(times(&none, None, &["14 Mar 2026, 23:50", "15 Mar 2026, 0:10"]), [0.0, 20.0]);
        assert_eq!(times(&none, None, &["28.2. 23:50", "1.3. 0:10"]), [0.0, 20.0]);
        assert_eq!(times(&none, Some("2028-02-28"), &["28.2. 23:50", "29.2. 0:10"]), [0.0, 20.0]);
        assert_eq!(times(&none, None, &["2026-03-24T22:58:10Z", "2026-03-24T23:08:10Z"]), [0.0, 10.0]);
    }

    /// Excel counts days from 1899-12-30 (ECMA-376, part 1, 18.17.4.1): 46105 is 2026-03-24.
    #[test]
    fn numbers_of_spreadsheets_and_of_unix() {
        let none = LogSettings::default();
        assert_eq!(times(&none, None, &["46105.5", "46105.75"]), [0.0, 360.0]);
        assert_eq!(times(&none, None, &["46105,5", "2026-03-24 18:00"]), [0.0, 360.0]);
        assert_eq!(times(&none, None, &["0.5", "0.75"]), [0.0, 360.0]);
        assert_eq!(times(&none, None, &["1774393090", "1774393690"]), [0.0, 10.0]);
    }

    #[test]
    fn the_order_of_day_and_month_needs_evidence() {
        let none = LogSettings::default();
        let read = |date: Option<&str>, cells: &[&str]| {
            let mut clock = Clock::new(&none, date);
            cells.iter().fold(TimeCell::Blank, |_, c| clock.read(c.as_bytes()))
        };
        assert!(matches!(read(None, &["3/4/2026 10:00"]), TimeCell::TwoDates(_)));
        let day = |cell| if let TimeCell::Seconds(s) = cell { (s / 86_400.0) as i64 } else { panic!("{cell:?}") };
        let (april, march) = (20_546, 20_516);
        assert_eq!(day(read(Some("2026-04-03"), &["3/4/2026 10:00"])), april, "the register's date tells");
        assert_eq!(day(read(Some("2026-03-04"), &["3/4/2026 10:00"])), march);
        assert_eq!(day(read(Some("2026-03-04"), &["3/4/2026 23:50", "3/5/2026 0:10"])), march + 1, "after midnight");
        assert_eq!(day(read(None, &["3/14/2026 10:00", "3/4/2026 10:00"])), march, "the row above tells");
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
