//! The content of a cell as the text that a person sees in it: numbers, percentages, dates and times. Knows nothing of sheets.

use calamine::ExcelDateTime;

/// The content of a cell.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Content {
    /// A number.
    Number(f64),
    /// A share that is shown in percent: 0.18 is shown as `18 %`.
    Percent(f64),
    /// A date or time in the form of this program.
    Time(String),
    /// Words, or a number that was typed as text.
    Text(String),
    /// The error of a formula, as the spreadsheet shows it.
    Error(String),
}

/// How a number format shows a number, as far as reading depends on it.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Shown {
    pub(super) percent: bool,
    date: bool,
    seconds: bool,
}

impl Shown {
    /// By the code of the format (ECMA-376 part 1, 18.8.31): `0.0%`, `[h]:mm`, `yyyy-mm-dd hh:mm:ss`. Colours in brackets and
    /// text in quotes say nothing.
    pub(super) fn by_code(code: &str) -> Self {
        let mut shown = Self::default();
        let (mut quoted, mut bracket, mut escaped) = (false, false, false);
        for c in code.chars().map(|c| c.to_ascii_lowercase()) {
            match c {
                _ if escaped => escaped = false,
                '\\' | '_' | '*' if !quoted => escaped = true,
                '"' => quoted = !quoted,
                '[' if !quoted => bracket = true,
                ']' if !quoted => bracket = false,
                ';' if !quoted => break,
                '%' if !quoted => shown.percent = true,
                'y' | 'd' if !quoted && !bracket => shown.date = true,
                's' if !quoted => shown.seconds = true,
                _ => {}
            }
        }
        shown
    }
}

/// A number with the 15 digits that a spreadsheet shows at most: the sum of 5.1 and 0.3 is 5.4, not 5.3999999999999995.
pub(super) fn number(value: f64) -> String {
    let text = value.to_string();
    if text.bytes().filter(u8::is_ascii_digit).count() <= 15 {
        return text;
    }
    format!("{value:.14e}").parse::<f64>().map_or(text, |rounded| rounded.to_string())
}

/// A date, a time of day or a span of time of Excel.
pub(super) fn excel_time(value: ExcelDateTime, shown: Shown) -> String {
    let serial = value.as_f64();
    if value.is_duration() {
        return hours(serial * 86_400.0, shown.seconds);
    }
    let (year, month, day, hour, minute, second, milli) = value.to_ymd_hms_milli();
    let of_day = f64::from(hour) * 3600.0 + f64::from(minute) * 60.0 + f64::from(second) + f64::from(milli) / 1000.0;
    // A time of day reckoned on over midnight is above one day, and shown without it.
    if serial < 1.0 || !shown.date {
        return hours(of_day, shown.seconds);
    }
    let date = format!("{year:04}-{month:02}-{day:02}");
    if of_day == 0.0 { date } else { format!("{date} {}", hours(of_day, true)) }
}

/// Seconds as `h:mm:ss`, with decimals where there are some, or as `h:mm` where the sheet shows no seconds and there are none.
pub(super) fn hours(seconds: f64, with_seconds: bool) -> String {
    let millis = (seconds.abs() * 1000.0).round() as u64;
    let (sign, whole) = (if seconds < 0.0 { "-" } else { "" }, millis / 1000);
    let text = format!("{sign}{}:{:02}", whole / 3600, whole / 60 % 60);
    match (whole % 60, millis % 1000) {
        (0, 0) if !with_seconds => text,
        (second, 0) => format!("{text}:{second:02}"),
        (second, milli) => format!("{text}:{second:02}.{milli:03}"),
    }
}

/// A date and time as ISO 8601 writes it, without a time of day that is midnight by convention.
pub(super) fn iso_time(text: &str) -> String {
    let plain = text.strip_suffix("Z").unwrap_or(text);
    plain.strip_suffix("T00:00:00").unwrap_or(plain).to_owned()
}

/// Seconds of a span of time in ISO 8601, `PT22H58M10.5S`; days and longer parts do not occur in cells.
pub(super) fn iso_span(text: &str) -> Option<f64> {
    let (sign, text) = text.strip_prefix('-').map_or((1.0, text), |rest| (-1.0, rest));
    let mut rest = text.strip_prefix("PT")?;
    let mut seconds = 0.0;
    for (unit, length) in [('H', 3600.0), ('M', 60.0), ('S', 1.0)] {
        if let Some((number, after)) = rest.split_once(unit) {
            seconds += length * number.replace(',', ".").parse::<f64>().ok()?;
            rest = after;
        }
    }
    rest.is_empty().then_some(sign * seconds)
}

#[cfg(test)]
mod tests {
    use super::*;
    use calamine::ExcelDateTimeType::{DateTime, TimeDelta};

    #[test]
    fn numbers_have_the_digits_that_a_spreadsheet_shows() {
        for (value, text) in [(61.2, "61.2"), (5.1 + 0.3, "5.4"), (0.1 + 0.2, "0.3"), (12.0, "12"), (-0.5, "-0.5")] {
            assert_eq!(number(value), text);
        }
    }

    /// Serial 45943.541 is 2025-10-13 12:59:02.400 (the example of calamine's own documentation).
    #[test]
    fn serial_numbers_are_dates_and_times() {
        let time = |serial, kind, code| excel_time(ExcelDateTime::new(serial, kind, false), Shown::by_code(code));
        assert_eq!(time(45_943.541, DateTime, "yyyy-mm-dd hh:mm"), "2025-10-13 12:59:02.400");
        assert_eq!(time(45_943.0, DateTime, "dd.mm.yyyy"), "2025-10-13");
        assert_eq!(time(23.0 / 24.0, DateTime, "h:mm"), "23:00");
        assert_eq!(time(23.0 / 24.0, DateTime, "h:mm:ss"), "23:00:00");
        assert_eq!(time(1.0 + 0.5 / 24.0, DateTime, "h:mm AM/PM"), "0:30");
        assert_eq!(time(25.5 / 24.0, TimeDelta, "[h]:mm"), "25:30");
        assert_eq!(time(10.0 / 1440.0, DateTime, "mm:ss"), "0:10:00");
    }

    #[test]
    fn formats_say_what_is_shown() {
        assert!(Shown::by_code("0.0%").percent && !Shown::by_code("0.0\"%\"").percent);
        assert!(!Shown::by_code("0.0").percent && !Shown::by_code("0;0%").percent);
        assert!(Shown::by_code("[Red]h:mm").date == Shown::by_code("h:mm").date);
    }

    #[test]
    fn times_of_iso_8601() {
        assert_eq!(iso_span("PT22H58M10.5S"), Some(82_690.5));
        assert_eq!(iso_span("PT10M"), Some(600.0));
        assert_eq!(iso_span("P1D"), None);
        assert_eq!(iso_time("2026-03-24T00:00:00"), "2026-03-24");
        assert_eq!(iso_time("2026-03-24T22:58:10"), "2026-03-24T22:58:10");
    }
}
