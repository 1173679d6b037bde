//! Days and clocks of files that nobody has described: the order of day and month, and a pattern for clocks whose cells do not
//! show it. What a date or a clock cell says is in `text::date` and in the reader of logs.

use super::facts::DateDoubt;
use crate::log_file::{date_part, knows_clock};
use crate::text::date::{DayOrder, WrittenDate, shown_order};
use jiff::civil::{Date, DateTime};

/// Ends of the patterns of days whose order a cell may leave open, behind day and month.
const YEARS: [(&str, &str); 4] = [("/", "/%Y"), ("/", "/%y"), ("-", "-%Y"), ("-", "-%y")];
const BETWEEN: [&str; 3] = [" ", ", ", "T"];
const TIMES: [&str; 5] = ["%I:%M:%S %p", "%I:%M %p", "%H:%M:%S", "%H:%M", "%H:%M:%S%.f"];

/// What is known of the order of day and month before a file is looked at.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Habits {
    /// Whether units and days are chosen as the United States write them.
    pub(super) us: bool,
    /// Order that another file shows.
    pub(super) order: Option<DayOrder>,
}

/// The days of some cells.
#[derive(Debug, Clone)]
pub(super) struct Days {
    /// Order that they show.
    pub(super) shown: Option<DayOrder>,
    taken: DayOrder,
    /// The first of them that has two meanings, where nothing shows the order.
    pub(super) doubt: Option<DateDoubt>,
}

impl Days {
    /// The days of cells that hold nothing else.
    pub(super) fn new(cells: &[&str], habits: Habits) -> Self {
        let shown = cells.iter().find_map(|cell| shown_order(cell));
        let usual = if habits.us { DayOrder::MonthFirst } else { DayOrder::DayFirst };
        let known = shown.or(habits.order);
        let taken = known.unwrap_or(usual);
        let doubt = known.is_none().then(|| cells.iter().find_map(|cell| doubt(cell, taken))).flatten();
        Self { shown, taken, doubt }
    }

    /// The day of a cell that gives a year.
    pub(super) fn day(&self, cell: &str) -> Option<Date> {
        let written = WrittenDate::new(cell)?;
        written.date(written.year?, Some(self.taken)).filter(|day| is_near(*day))
    }
}

fn doubt(cell: &str, taken: DayOrder) -> Option<DateDoubt> {
    let written = WrittenDate::new(cell)?;
    let [day_first, month_first] = written.both(written.year?)?.map(|day| day.to_string());
    let (taken, other) = if taken == DayOrder::DayFirst { (day_first, month_first) } else { (month_first, day_first) };
    Some(DateDoubt { cell: cell.to_owned(), taken, other })
}

/// The form of a clock.
#[derive(Debug, Clone)]
pub(super) struct Form {
    /// Pattern of its cells, for days with strokes or hyphens.
    pub(super) pattern: Option<String>,
    /// Whether the reader does not know the cells without the pattern.
    pub(super) needs_pattern: bool,
    /// Day of the first cell.
    pub(super) date: Option<Date>,
    /// Its days.
    pub(super) days: Days,
}

/// The form of the cells of a clock.
pub(super) fn form(cells: &[&str], habits: Habits) -> Form {
    let dates: Vec<&str> = cells.iter().filter_map(|cell| date_part(cell)).collect();
    let days = Days::new(&dates, habits);
    let pattern = pattern(cells, days.taken);
    let needs_pattern = !knows_clock(cells) && pattern.is_some();
    let date = cells.first().and_then(|cell| days.day(date_part(cell)?));
    Form { pattern, needs_pattern, date, days }
}

/// The pattern that fits all cells, with the days in one order.
fn pattern(cells: &[&str], order: DayOrder) -> Option<String> {
    let day = |(mark, year): (&str, &str)| match order {
        DayOrder::DayFirst => format!("%d{mark}%m{year}"),
        DayOrder::MonthFirst => format!("%m{mark}%d{year}"),
    };
    let fits = |pattern: &str, cell: &str| DateTime::strptime(pattern, cell).is_ok_and(|at| is_near(at.date()));
    YEARS.into_iter().map(day).find_map(|day| {
        let mut whole =
            BETWEEN.iter().flat_map(|b| TIMES.iter().map(move |t| (b, t))).map(|(b, t)| format!("{day}{b}{t}"));
        whole.find(|pattern| !cells.is_empty() && cells.iter().all(|cell| fits(pattern, cell)))
    })
}

/// Whether a day may be one of a burn; the year 26 is one of two digits.
fn is_near(day: Date) -> bool {
    (1950..2150).contains(&day.year())
}

/// A day in the name of a file or in the lines above its headers: `2026-03-24`, `20260324`, `24.03.2026`.
pub(super) fn day_in(text: &str) -> Option<Date> {
    let words = text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '-' | '.')));
    let date = |word: &str| {
        let word = word.trim_matches(['-', '.']);
        let written = || WrittenDate::new(word)?.full();
        Date::strptime("%Y%m%d", word).ok().or_else(written).filter(|day| is_near(*day))
    };
    words.filter(|w| w.len() >= 8).find_map(date)
}

#[cfg(test)]
mod tests {
    use super::{Days, Habits, day_in, form};
    use crate::text::date::DayOrder;

    fn habits(us: bool) -> Habits {
        Habits { us, order: None }
    }

    /// The pattern that is needed, the day, and the other meaning of the day.
    fn found(cells: &[&str], habits: Habits) -> (Option<String>, Option<String>, Option<String>) {
        let form = form(cells, habits);
        let pattern = form.pattern.filter(|_| form.needs_pattern);
        (pattern, form.date.map(|d| d.to_string()), form.days.doubt.map(|d| d.other))
    }

    #[test]
    fn forms_of_loggers() {
        let iso = Some("2026-03-04".to_owned());
        let us = habits(true);
        for known in ["2026-03-04 22:58", "04.03.2026 22:58:10", "2026-03-04T22:58:10Z", "4 Mar 2026 22:58"] {
            assert_eq!(found(&[known], us), (None, iso.clone(), None), "the reader knows {known}");
        }
        assert_eq!(found(&["22:58", "23:01"], us), (None, None, None));
        assert_eq!(found(&["3/14/2026 22:58"], habits(false)), (None, Some("2026-03-14".into()), None), "no month 14");
        for (cell, pattern) in [
            ("3/4/2026 10:58 PM", "%m/%d/%Y %I:%M %p"),
            ("03/04/26 09:40:00 AM", "%m/%d/%y %I:%M:%S %p"),
            ("03-04-2026 09:40", "%m-%d-%Y %H:%M"),
        ] {
            assert_eq!(found(&[cell], us), (Some(pattern.into()), iso.clone(), Some("2026-04-03".into())), "{cell}");
        }
        let other = Some("2026-04-03".to_owned());
        assert_eq!(found(&["4/3/2026 22:58"], habits(false)), (Some("%d/%m/%Y %H:%M".into()), iso.clone(), other));
        let shown = Habits { us: true, order: Some(DayOrder::DayFirst) };
        assert_eq!(found(&["4/3/2026 22:58"], shown), (Some("%d/%m/%Y %H:%M".into()), iso, None));
    }

    #[test]
    fn days_alone_and_in_names() {
        let first = |cells: &[&str]| {
            let days = Days::new(cells, habits(false));
            (days.day(cells[0]).map(|d| d.to_string()), days.doubt.map(|d| d.other))
        };
        let march = |day: &str| Some(format!("2026-03-{day}"));
        assert_eq!(first(&["24.03.2026"]), (march("24"), None));
        assert_eq!(first(&["3/4/2026", "3/14/2026"]), (march("04"), None), "there is no month 14");
        assert_eq!(first(&["4/3/2026", "5/3/2026"]), (march("04"), Some("2026-04-03".into())));
        assert_eq!(first(&["soon"]), (None, None));
        assert_eq!(day_in("burn_20260324_b").map(|d| d.to_string()), march("24"));
        assert_eq!(day_in("logger 2026-03-24 a").map(|d| d.to_string()), march("24"));
        assert_eq!(day_in("log 24.03.2026").map(|d| d.to_string()), march("24"));
        assert_eq!((day_in("serial 12345678"), day_in("03-04-2026")), (None, None));
    }
}
