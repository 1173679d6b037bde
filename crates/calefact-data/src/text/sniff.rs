//! Guessing delimiter and decimal sign from the first rows.

use super::cells::preview;
use super::number::{Decimal, DecimalSign, TwoReadings};

/// Delimiters tried, in order of preference among equals.
pub(crate) const DELIMITERS: [u8; 4] = [b',', b';', b'\t', b'|'];

/// Rows looked at.
pub(crate) const ROWS: usize = 80;

/// The delimiter that splits most rows into the same number of cells (at least two); the comma if none does.
pub(crate) fn delimiter(text: &[u8]) -> u8 {
    let score = |d: u8| {
        let rows = preview(text, d, ROWS);
        let widths: Vec<usize> = rows.iter().map(|(_, c)| c.len()).filter(|n| *n > 1).collect();
        widths.iter().map(|w| widths.iter().filter(|x| *x == w).count()).max().unwrap_or(0)
    };
    let best = DELIMITERS.iter().map(|d| score(*d)).max().unwrap_or(0);
    DELIMITERS.into_iter().find(|d| best > 0 && score(*d) == best).unwrap_or(b',')
}

/// What the numbers of a file show of its decimal sign. Only cells of columns that hold numbers have a vote: dates and
/// ids are full of points.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Votes {
    comma: usize,
    point: usize,
    /// Cells with a comma, and with a point, that show nothing: both readings are possible.
    open_comma: usize,
    open_point: usize,
}

impl Votes {
    /// Counts a cell, which may end in a unit; of two readings, one that is not possible leaves the other.
    pub(crate) fn add(&mut self, cell: &str, is_possible: impl Fn(f64) -> bool) {
        let cell = number_part(cell);
        if let Some(two) = TwoReadings::new(cell.as_bytes()) {
            let is_comma = two.mark == ',';
            *match (is_possible(two.decimal), is_possible(two.grouped)) {
                (true, false) if is_comma => &mut self.comma,
                (true, false) => &mut self.point,
                (false, true) if is_comma => &mut self.point,
                (false, true) => &mut self.comma,
                _ if is_comma => &mut self.open_comma,
                _ => &mut self.open_point,
            } += 1;
            return;
        }
        match (cell.rfind(','), cell.rfind('.')) {
            (Some(c), p) if p.is_none_or(|p| p < c) => {
                *if cell.matches(',').count() > 1 { &mut self.point } else { &mut self.comma } += 1;
            }
            (_, Some(_)) => *if cell.matches('.').count() > 1 { &mut self.comma } else { &mut self.point } += 1,
            _ => {}
        }
    }

    /// The decimal sign of a file with a delimiter. Where nothing decides, a file delimited by commas can hold decimal commas
    /// only between quotes, so that its points are decimal signs.
    pub(crate) fn sign(self, delimiter: u8) -> DecimalSign {
        let decimal = if self.comma > self.point { Decimal::Comma } else { Decimal::Point };
        match (self.comma > 0, self.point > 0) {
            (true, false) | (false, true) => decimal.into(),
            (false, false) if delimiter == b',' => {
                DecimalSign { decimal, open: if self.open_point > 0 { "" } else { "," } }
            }
            (false, false) if self.open_comma > self.open_point => DecimalSign { decimal: Decimal::Comma, open: ",." },
            _ => DecimalSign { decimal, open: ",." },
        }
    }
}

/// The number that a cell begins with, as written; nothing if it does not begin with a number.
pub(crate) fn number_part(cell: &str) -> &str {
    let is_number = |c: char| c.is_ascii_digit() || ",.'-+\u{2212}\u{2019}\u{a0}\u{202f} ".contains(c);
    let mut end = cell.find(|c| !is_number(c)).unwrap_or(cell.len());
    if let Some(exponent) = cell[end..].strip_prefix(['e', 'E']) {
        let digits = exponent.strip_prefix(['+', '-']).unwrap_or(exponent);
        let rest = digits.trim_start_matches(|c: char| c.is_ascii_digit());
        end = if rest.len() < digits.len() { cell.len() - rest.len() } else { end };
    }
    let number = &cell[..end];
    if number.contains(|c: char| c.is_ascii_digit()) { number.trim() } else { "" }
}

#[cfg(test)]
mod tests {
    use super::{Decimal, DecimalSign, Votes, delimiter};

    #[test]
    fn delimiter_by_consistency() {
        assert_eq!(delimiter(b"a;b;c\n1,5;2,5;3\n4,5;5;6,25\n"), b';');
        assert_eq!(delimiter(b"a,b\n1,2\n3,4\n"), b',');
        assert_eq!(delimiter(b"a\tb\n1,2\t3\n"), b'\t');
        assert_eq!(delimiter(b"a|b\n1|2\n"), b'|');
    }

    fn sign(cells: &[&str], delimiter: u8) -> DecimalSign {
        let mut votes = Votes::default();
        for cell in cells {
            votes.add(cell, |value| value < 1e4);
        }
        votes.sign(delimiter)
    }

    #[test]
    fn decimal_sign_by_the_digits_after_it() {
        use Decimal::{Comma, Point};
        let cases: [(&[&str], u8, Decimal); 9] = [
            (&["61,2", "0"], b';', Comma),
            (&["1,234.5"], b',', Point),
            (&["1.234,5"], b';', Comma),
            (&["1.234.567"], b';', Comma),
            (&["1,234", "20.5"], b'\t', Point),
            (&["0,600", "1,234"], b';', Comma),
            (&["5,6 kg"], b';', Comma),
            (&["1.234"], b',', Point),
            // 12345 is not possible here.
            (&["12,345"], b';', Comma),
        ];
        for (cells, delimiter, decimal) in cases {
            assert_eq!(sign(cells, delimiter), decimal.into(), "{cells:?}");
        }
    }

    #[test]
    fn a_decimal_sign_may_stay_open() {
        let open = |cells: &[&str], delimiter| sign(cells, delimiter).open;
        assert_eq!(open(&["1,234", "2,345"], b';'), ",.");
        assert_eq!(open(&["1,234"], b','), ",");
        assert_eq!(open(&["61,2", "61.2"], b';'), ",.", "both signs in one file");
        assert_eq!(open(&["12", "17"], b';'), ",.");
    }
}
