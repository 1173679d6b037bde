//! The form of clock cells: whether the reader knows it, or a pattern for it.

use crate::log_file::knows_clock;
use jiff::civil::{Date, DateTime};

/// Patterns of days; of those with strokes, the first is that of the United States.
const DAYS: [&str; 8] =
    ["%d.%m.%Y", "%d.%m.%y", "%m/%d/%Y", "%d/%m/%Y", "%m/%d/%y", "%d/%m/%y", "%Y/%m/%d", "%d-%m-%Y"];
const BETWEEN: [&str; 3] = [" ", ", ", "T"];
const TIMES: [&str; 5] = ["%I:%M:%S %p", "%I:%M %p", "%H:%M:%S", "%H:%M", "%H:%M:%S%.f"];

/// The form of a clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Form {
    /// Pattern to state, where the reader does not know the form by itself.
    pub(super) pattern: Option<String>,
    /// Day of the first cell.
    pub(super) date: Option<Date>,
}

/// The form of the cells of a clock; of two that fit, the one of the United States if `us`.
pub(super) fn form(cells: &[&str], us: bool) -> Form {
    let first = cells.first().copied().unwrap_or_default();
    if let Some(date) = first.get(..10).and_then(|day| day.parse::<Date>().ok()) {
        return Form { pattern: None, date: Some(date) };
    }
    let pattern = days(us).iter().find_map(|day| {
        let mut whole = BETWEEN.iter().flat_map(|b| TIMES.iter().map(move |t| format!("{day}{b}{t}")));
        let fits = |pattern: &str, cell: &str| DateTime::strptime(pattern, cell).is_ok_and(|at| is_near(at.date()));
        whole.find(|pattern| cells.iter().all(|cell| fits(pattern, cell)))
    });
    let date = pattern.as_ref().and_then(|p| DateTime::strptime(p, first).ok()).map(DateTime::date);
    Form { pattern: pattern.filter(|_| !knows_clock(cells)), date }
}

/// The pattern that fits all of some cells of days; that of ISO 8601 first.
pub(super) fn days_pattern(cells: &[&str], us: bool) -> Option<&'static str> {
    let fits = |pattern: &&'static str| cells.iter().all(|cell| Date::strptime(pattern, cell).is_ok_and(is_near));
    let all = std::iter::once("%Y-%m-%d").chain(days(us));
    all.into_iter().find(fits).filter(|_| !cells.is_empty())
}

/// The day of a cell of a pattern, in a form that the register takes.
pub(super) fn day(cell: &str, pattern: Option<&str>) -> Option<Date> {
    Date::strptime(pattern?, cell).ok()
}

/// Whether a day may be one of a burn; the year 26 is one of two digits.
fn is_near(day: Date) -> bool {
    (1950..2150).contains(&day.year())
}

/// The patterns of days, those of the reader's country first.
fn days(us: bool) -> [&'static str; 8] {
    let mut days = DAYS;
    if !us {
        days.swap(2, 3);
        days.swap(4, 5);
    }
    days
}

/// A day in the name of a file or in the lines above its headers: `2026-03-24`, `20260324`, `24.03.2026`.
pub(super) fn day_in(text: &str) -> Option<Date> {
    let words = text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '-' | '.')));
    let date = |word: &str| {
        let word = word.trim_matches(['-', '.']);
        let patterns = ["%Y-%m-%d", "%Y%m%d", "%d.%m.%Y"];
        patterns.iter().find_map(|p| Date::strptime(p, word).ok()).filter(|day| is_near(*day))
    };
    words.filter(|w| w.len() >= 8).find_map(date)
}

#[cfg(test)]
mod tests {
    use super::{day, day_in, days_pattern, form};

    fn found(cells: &[&str], us: bool) -> (Option<String>, Option<String>) {
        let form = form(cells, us);
        (form.pattern, form.date.map(|d| d.to_string()))
    }

    #[test]
    fn forms_of_loggers() {
        let iso = Some("2026-03-04".to_owned());
        assert_eq!(found(&["2026-03-04 22:58"], false), (None, iso.clone()));
        assert_eq!(found(&["22:58", "23:01"], false), (None, None));
        assert_eq!(found(&["04.03.2026 22:58:10"], false), (None, iso.clone()), "the reader knows it");
        assert_eq!(found(&["3/4/2026 10:58 PM"], true), (Some("%m/%d/%Y %I:%M %p".into()), iso.clone()));
        assert_eq!(found(&["4/3/2026 22:58"], false), (Some("%d/%m/%Y %H:%M".into()), iso));
        assert_eq!(found(&["03/04/26 09:40:00 AM"], true).0.as_deref(), Some("%m/%d/%y %I:%M:%S %p"));
        let late = Some("2026-03-14".to_owned());
        assert_eq!(found(&["3/14/2026 22:58"], false), (None, late), "there is no month 14");
    }

    #[test]
    fn days_alone_and_in_names() {
        let iso = |cells: &[&str], us| day(cells[0], days_pattern(cells, us)).map(|d| d.to_string());
        assert_eq!(iso(&["24.03.2026"], false).as_deref(), Some("2026-03-24"));
        assert_eq!(iso(&["3/4/2026", "3/14/2026"], false).as_deref(), Some("2026-03-04"), "there is no month 14");
        assert_eq!(iso(&["soon"], false), None);
        assert_eq!(day_in("burn_20260324_b").map(|d| d.to_string()).as_deref(), Some("2026-03-24"));
        assert_eq!(day_in("logger 2026-03-24 a").map(|d| d.to_string()).as_deref(), Some("2026-03-24"));
        assert_eq!(day_in("serial 12345678"), None);
    }
}
