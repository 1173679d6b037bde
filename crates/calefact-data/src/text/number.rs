//! From a cell to a number: decimal point or comma, thousands separators, words for "no reading".

use serde::Serialize;

/// Which character separates the decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Decimal {
    /// `61.2`
    #[default]
    Point,
    /// `61,2`
    Comma,
}

/// The content of a cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Cell {
    /// A finite number.
    Number(f64),
    /// Nothing, or a word for "no reading".
    Blank,
    /// A number with a mark that may be its decimal sign or part its thousands.
    Ambiguous,
    /// Something else.
    Unreadable,
}

/// The decimal sign of a file, and how sure it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DecimalSign {
    /// The sign.
    pub(crate) decimal: Decimal,
    /// Marks of which the file does not show whether they are decimal signs or part thousands.
    pub(crate) open: &'static str,
}

impl From<Decimal> for DecimalSign {
    fn from(decimal: Decimal) -> Self {
        Self { decimal, open: "" }
    }
}

/// How numbers of a file are written.
#[derive(Debug, Clone, Copy)]
pub(crate) struct NumberStyle<'a> {
    pub(crate) sign: DecimalSign,
    /// Words for "no reading" besides the usual ones.
    pub(crate) missing: &'a [String],
}

/// Words that loggers and people write for "no reading", compared without regard to case.
const NO_READING: [&str; 13] =
    ["-", "--", "---", "ol", "o.l", "0l", "o.l.", "nan", "n/a", "na", "null", "open", "\u{2013}"];

impl NumberStyle<'_> {
    /// Reads one cell.
    pub(crate) fn read(&self, cell: &[u8]) -> Cell {
        let cell = cell.trim_ascii();
        // A stated word may look like a number: `-999`.
        if self.missing.iter().any(|w| cell.eq_ignore_ascii_case(w.as_bytes())) {
            return Cell::Blank;
        }
        if !self.sign.open.is_empty() && TwoReadings::new(cell).is_some_and(|two| self.sign.open.contains(two.mark)) {
            return Cell::Ambiguous;
        }
        let found = match self.sign.decimal {
            Decimal::Point => fast_float2::parse(cell).ok().filter(|v: &f64| v.is_finite()),
            Decimal::Comma => plain_with_comma(cell),
        };
        found.map_or_else(|| self.read_slowly(cell), Cell::Number)
    }

    fn read_slowly(&self, cell: &[u8]) -> Cell {
        let Ok(text) = std::str::from_utf8(cell) else { return Cell::Unreadable };
        let text = text.trim();
        if self.is_blank(text) {
            return Cell::Blank;
        }
        let parsed = plain_form(text, self.sign.decimal).and_then(|t| fast_float2::parse::<f64, _>(t).ok());
        parsed.filter(|v| v.is_finite()).map_or(Cell::Unreadable, Cell::Number)
    }

    fn is_blank(&self, text: &str) -> bool {
        text.is_empty()
            || NO_READING.iter().any(|w| text.eq_ignore_ascii_case(w))
            || self.missing.iter().any(|w| text.eq_ignore_ascii_case(w))
    }
}

/// A number with one mark before its last three digits: `5,600` is 5.6 or 5600.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TwoReadings {
    /// The mark, a comma or a point.
    pub mark: char,
    /// The number if the mark is the decimal sign.
    pub decimal: f64,
    /// The number if the mark parts thousands.
    pub grouped: f64,
}

impl TwoReadings {
    /// Both readings of a cell that has two. A leading zero, as in `0,600`, leaves only one.
    pub(crate) fn new(cell: &[u8]) -> Option<Self> {
        let cell = cell.trim_ascii();
        let at = memchr::memchr2(b',', b'.', cell)?;
        let digits = |part: &[u8]| part.iter().all(u8::is_ascii_digit);
        let whole = cell[..at].strip_prefix(b"-").or(cell[..at].strip_prefix(b"+")).unwrap_or(&cell[..at]);
        let fits = (1..=3).contains(&whole.len()) && whole[0] != b'0' && digits(whole);
        let grouped = std::str::from_utf8(&[&cell[..at], &cell[at + 1..]].concat()).ok()?.parse::<f64>().ok();
        let grouped = grouped.filter(|_| fits && cell.len() - at == 4 && digits(&cell[at + 1..]))?;
        Some(Self { mark: char::from(cell[at]), decimal: grouped / 1000.0, grouped })
    }
}

/// Powers of ten that a float holds exactly, as far as they are needed.
const POWERS: [f64; 16] = [1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

/// A number of at most 15 digits with a decimal comma, which the library for floats does not know. Digits and power of ten are
/// exact, so the one division gives the nearest float (Clinger 1990, "How to read floating point numbers accurately"). `None`
/// for any other form.
fn plain_with_comma(cell: &[u8]) -> Option<f64> {
    let digits = cell.strip_prefix(b"-").unwrap_or(cell);
    let (mut number, mut count, mut decimals) = (0, 0, None);
    for &byte in digits {
        if byte.is_ascii_digit() && count < 15 {
            number = 10 * number + i64::from(byte - b'0');
            count += 1;
        } else if byte == b',' && decimals.is_none() {
            decimals = Some(count);
        } else {
            return None;
        }
    }
    let value = number as f64 / POWERS[decimals.map_or(0, |whole| count - whole)];
    (count > 0).then_some(if digits.len() < cell.len() { -value } else { value })
}

/// The number with a decimal point and without thousands separators; `None` if the separators are not three digits apart.
fn plain_form(text: &str, decimal: Decimal) -> Option<String> {
    let mark = if decimal == Decimal::Comma { ',' } else { '.' };
    let text = text.replace('\u{2212}', "-");
    let (whole, fraction) = match text.split_once(mark) {
        Some((w, f)) => (w, Some(f)),
        None => (text.as_str(), None),
    };
    let whole = join_groups(whole, mark)?;
    Some(fraction.map_or_else(|| whole.clone(), |f| format!("{whole}.{f}")))
}

fn join_groups(whole: &str, mark: char) -> Option<String> {
    let is_separator = |c: char| c != mark && matches!(c, ',' | '.' | '\'' | '\u{2019}' | ' ' | '\u{a0}' | '\u{202f}');
    if !whole.contains(is_separator) {
        return Some(whole.to_string());
    }
    let mut groups = whole.split(is_separator);
    let first = groups.next()?;
    let digits = first.trim_start_matches(['-', '+']);
    let head_fits = (1..=3).contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit());
    let rest: Vec<&str> = groups.collect();
    let rest_fits = rest.iter().all(|g| g.len() == 3 && g.bytes().all(|b| b.is_ascii_digit()));
    (head_fits && rest_fits).then(|| format!("{first}{}", rest.concat()))
}

#[cfg(test)]
mod tests {
    use super::{Cell, Decimal, DecimalSign, NumberStyle, TwoReadings};

    fn read(decimal: Decimal, cell: &str) -> Cell {
        NumberStyle { sign: decimal.into(), missing: &["leer".into(), "-999".into()] }.read(cell.as_bytes())
    }

    #[test]
    fn point_and_comma_and_thousands() {
        use Decimal::{Comma, Point};
        let cases = [
            (Point, "61.2", 61.2),
            (Point, " -3e2 ", -300.0),
            (Point, "1,234.5", 1234.5),
            (Point, "1 234.5", 1234.5),
            (Point, "12'345", 12345.0),
            (Comma, "61,2", 61.2),
            (Comma, "-0,5", -0.5),
            (Comma, "1.234,5", 1234.5),
            (Comma, "1\u{a0}234,5", 1234.5),
            (Point, "\u{2212}4.5", -4.5),
        ];
        for (decimal, text, want) in cases {
            assert_eq!(read(decimal, text), Cell::Number(want), "{text}");
        }
    }

    /// Compared with the float library, for every number of up to four digits with a mark anywhere, and for longer ones.
    #[test]
    fn plain_numbers_are_read_as_the_library_reads_them() {
        let long = [
            "123456789012345",
            "0.000000000000001",
            "-98765.4321012345",
            "99999999999999.9",
            "1e5",
            "1234567890123456",
        ];
        let short = (0..10_000).flat_map(|n| (0..=4).map(move |places| (n, places)));
        let short = short.map(|(n, places)| {
            let digits = format!("{n:04}");
            format!("{}.{}", &digits[..4 - places], &digits[4 - places..])
        });
        for text in short.chain(long.map(String::from)) {
            let wanted: f64 = fast_float2::parse(&text).expect("a number");
            assert_eq!(read(Decimal::Point, &text), Cell::Number(wanted), "{text}");
            assert_eq!(read(Decimal::Comma, &text.replace('.', ",")), Cell::Number(wanted), "{text}");
        }
    }

    #[test]
    fn no_reading_and_unreadable_cells_are_different() {
        for text in ["", "  ", "--", "OL", "NaN", "n/a", "Leer", " -999 "] {
            assert_eq!(read(Decimal::Point, text), Cell::Blank, "{text}");
        }
        for text in ["61.2 C", "12,34", "abc", "1,23,456", "inf"] {
            assert_eq!(read(Decimal::Point, text), Cell::Unreadable, "{text}");
        }
        assert_eq!(read(Decimal::Comma, "61.2"), Cell::Unreadable);
    }

    #[test]
    fn a_mark_before_three_digits_has_two_readings() {
        let two = |cell: &str| TwoReadings::new(cell.as_bytes()).map(|two| (two.decimal, two.grouped));
        assert_eq!(two("5,600"), Some((5.6, 5600.0)));
        assert_eq!(two(" -12.345 "), Some((-12.345, -12345.0)));
        for text in ["0,600", "5,60", "5600", "1,234,567", "1,234.5", "5,6e3", "1234,567", ",600", "a,600"] {
            assert_eq!(two(text), None, "{text}");
        }
        let style = NumberStyle { sign: DecimalSign { decimal: Decimal::Point, open: "," }, missing: &[] };
        assert_eq!([style.read(b"5,600"), style.read(b"5.600")], [Cell::Ambiguous, Cell::Number(5.6)]);
    }
}
