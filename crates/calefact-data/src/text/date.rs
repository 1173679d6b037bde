//! Dates as people write them: `2026-03-24`, `24.03.2026`, `3/14/2026`, `24 Mar 2026`, and without a year.

use jiff::civil::Date;

/// Which comes first where both are numbers between slashes or hyphens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum DayOrder {
    /// `24/3/2026`
    DayFirst,
    /// `3/24/2026`
    MonthFirst,
}

/// A date as written: of the two orders, those that give a date.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct WrittenDate {
    /// Year, where it is written.
    pub(crate) year: Option<i16>,
    /// Month and day by one order or, where nothing tells the order, by the day first.
    first: (i8, i8),
    /// Month and day with the month first, where that is another date.
    other: Option<(i8, i8)>,
}

impl WrittenDate {
    /// Reads a text; `None` if it is no date.
    pub(crate) fn new(text: &str) -> Option<Self> {
        let text = text.trim().trim_end_matches(',');
        numeric(text).or_else(|| with_month_name(text))
    }

    /// The date, with a year for those that have none; `None` where two dates are possible and nothing tells which.
    pub(crate) fn date(self, year: i16, order: Option<DayOrder>) -> Option<Date> {
        let (month, day) = match (self.other, order) {
            (None, _) | (Some(_), Some(DayOrder::DayFirst)) => self.first,
            (Some(other), Some(DayOrder::MonthFirst)) => other,
            (Some(_), None) => return None,
        };
        Date::new(self.year.unwrap_or(year), month, day).ok()
    }

    /// The date, where its year is written and it has one meaning.
    pub(crate) fn full(self) -> Option<Date> {
        self.date(self.year?, None)
    }

    /// Both dates that it may mean.
    pub(crate) fn both(self, year: i16) -> Option<[Date; 2]> {
        let date = |(month, day)| Date::new(self.year.unwrap_or(year), month, day).ok();
        Some([date(self.first)?, date(self.other?)?])
    }
}

/// The order that dates between slashes or hyphens show: of one that only one order makes a date.
pub(crate) fn shown_order(text: &str) -> Option<DayOrder> {
    let (a, b) = slashed(text.trim())?.0;
    match (a > 12 && b <= 12, b > 12 && a <= 12) {
        (true, _) => Some(DayOrder::DayFirst),
        (_, true) => Some(DayOrder::MonthFirst),
        _ => None,
    }
}

/// The order in which a text with two meanings is a given day.
pub(crate) fn order_on(text: &str, day: Date) -> Option<DayOrder> {
    let [day_first, month_first] = WrittenDate::new(text)?.both(day.year())?;
    match (day_first == day, month_first == day) {
        (true, false) => Some(DayOrder::DayFirst),
        (false, true) => Some(DayOrder::MonthFirst),
        _ => None,
    }
}

/// The first two numbers, neither of them a year, and the year.
fn slashed(text: &str) -> Option<((i8, i8), Option<i16>)> {
    let mark = text.chars().find(|c| matches!(c, '/' | '-'))?;
    let mut parts = text.split(mark);
    let (a, b, year) = (parts.next()?, parts.next()?, parts.next());
    let year = match year {
        Some(year) => Some(self::year(year)?),
        // `3-14` may be a difference or a range.
        None if mark == '/' => None,
        None => return None,
    };
    parts.next().is_none().then_some(((small(a)?, small(b)?), year))
}

fn numeric(text: &str) -> Option<WrittenDate> {
    let one =
        |year, month, day| valid(year, month, day).then_some(WrittenDate { year, first: (month, day), other: None });
    if let Some(mark) = ['-', '/', '.'].into_iter().find(|mark| text.find(*mark) == Some(4)) {
        let mut parts = text.split(mark);
        let (year, month, day) = (self::year(parts.next()?)?, small(parts.next()?)?, small(parts.next()?)?);
        return parts.next().map_or_else(|| one(Some(year), month, day), |_| None);
    }
    if text.contains('.') {
        // Dots are written with the day first: common practice, no source.
        let mut parts = text.split('.').map(str::trim);
        let (day, month, rest) = (small(parts.next()?)?, small(parts.next()?)?, parts.next()?);
        let year = if rest.is_empty() { None } else { Some(self::year(rest)?) };
        return parts.next().map_or_else(|| one(year, month, day), |_| None);
    }
    let ((a, b), year) = slashed(text)?;
    match (valid(year, b, a), valid(year, a, b)) {
        (true, true) if a != b => Some(WrittenDate { year, first: (b, a), other: Some((a, b)) }),
        (true, _) => one(year, b, a),
        (_, true) => one(year, a, b),
        _ => None,
    }
}

/// First letters of the months, in English and German.
const MONTHS: [&[&str]; 12] = [
    &["jan", "j\u{e4}n"],
    &["feb"],
    &["mar", "m\u{e4}r", "mae"],
    &["apr"],
    &["may", "mai"],
    &["jun"],
    &["jul"],
    &["aug"],
    &["sep"],
    &["oct", "okt"],
    &["nov"],
    &["dec", "dez"],
];

/// `24 Mar 2026`, `24. März`, `March 24, 2026`, `24-Mar-26`.
fn with_month_name(text: &str) -> Option<WrittenDate> {
    let parts: Vec<&str> = text.split([' ', '.', ',', '-', '/']).filter(|p| !p.is_empty()).collect();
    let (day, name, year) = match parts[..] {
        [a, b, year] if a.starts_with(|c: char| c.is_ascii_digit()) => (a, b, Some(year)),
        [a, b, year] => (b, a, Some(year)),
        [a, b] if a.starts_with(|c: char| c.is_ascii_digit()) => (a, b, None),
        [a, b] => (b, a, None),
        _ => return None,
    };
    let lower = name.to_lowercase();
    let is_it = |names: &&[&str]| names.iter().any(|n| lower.starts_with(n));
    let is_word = lower.chars().all(char::is_alphabetic);
    let month = MONTHS.iter().position(is_it).filter(|_| is_word)?;
    let year = year.map(self::year).map_or(Some(None), |year| year.map(Some))?;
    let (month, day) = (i8::try_from(month).ok()? + 1, small(day)?);
    valid(year, month, day).then_some(WrittenDate { year, first: (month, day), other: None })
}

/// Whether there is such a day; a year that is not written may be a leap year.
fn valid(year: Option<i16>, month: i8, day: i8) -> bool {
    Date::new(year.unwrap_or(2000), month, day).is_ok()
}

/// A year of four digits, or of two in this century.
fn year(text: &str) -> Option<i16> {
    let is_number = text.bytes().all(|b| b.is_ascii_digit());
    let number: i16 = text.parse().ok().filter(|_| is_number)?;
    match text.len() {
        4 => Some(number),
        2 => Some(2000 + number),
        _ => None,
    }
}

/// A number of one or two digits.
fn small(text: &str) -> Option<i8> {
    let text = text.trim();
    let fits = (1..=2).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    fits.then(|| text.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::{DayOrder, WrittenDate, shown_order};

    fn read(text: &str, order: Option<DayOrder>) -> Option<String> {
        WrittenDate::new(text)?.date(2026, order).map(|d| d.to_string())
    }

    #[test]
    fn dates_with_one_meaning() {
        let same = [
            "2026-03-24",
            "2026/03/24",
            "2026.3.24",
            "24.03.2026",
            "24.3.26",
            "24.3.",
            "24/3/2026",
            "3/24/2026",
            "3/24/26",
            "3/24",
            "24-03-2026",
            "24 Mar 2026",
            "24. M\u{e4}rz 2026",
            "March 24, 2026",
            "24-Mar-26",
            "Mar 24",
            "24 march",
        ];
        for text in same {
            assert_eq!(read(text, None).as_deref(), Some("2026-03-24"), "{text}");
        }
        assert_eq!(read("5/5/2026", None).as_deref(), Some("2026-05-05"), "the order is all one");
        assert_eq!(read("04.03.2026", None).as_deref(), Some("2026-03-04"), "dots have the day first");
    }

    #[test]
    fn dates_with_two_meanings_need_an_order() {
        assert_eq!(read("3/4/2026", None), None);
        assert_eq!(read("3/4/2026", Some(DayOrder::DayFirst)).as_deref(), Some("2026-04-03"));
        assert_eq!(read("3/4/2026", Some(DayOrder::MonthFirst)).as_deref(), Some("2026-03-04"));
        let both = WrittenDate::new("3/4/2026").and_then(|d| d.both(2026)).expect("two");
        assert_eq!(both.map(|d| d.to_string()), ["2026-04-03", "2026-03-04"]);
        let orders =
            [("3/24/2026", Some(DayOrder::MonthFirst)), ("24/3/26", Some(DayOrder::DayFirst)), ("3/4/2026", None)];
        for (text, order) in orders.into_iter().chain([("24.3.2026", None), ("2026-03-24", None)]) {
            assert_eq!(shown_order(text), order, "{text}");
        }
    }

    #[test]
    fn what_is_no_date() {
        for text in [
            "",
            "2026",
            "31.02.2026",
            "13/13/2026",
            "3-14",
            "12.5",
            "1/2/3/4",
            "24 Foo 2026",
            "24.03.2026 x",
            "0/3/2026",
            "day 3",
            "Mar",
        ] {
            assert_eq!(WrittenDate::new(text), None, "{text}");
        }
    }
}
