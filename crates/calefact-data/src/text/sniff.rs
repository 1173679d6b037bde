//! Guessing delimiter and decimal sign from the first rows.

use super::cells::preview;
use super::number::Decimal;

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

/// The decimal sign, judged from cells that look like numbers.
///
/// A comma counts as decimal sign where it is the last separator and not followed by exactly three digits. Where every
/// comma could as well part thousands, a file delimited by semicolons, tabs or bars that has no decimal point has
/// decimal commas.
pub(crate) fn decimal<'c>(cells: impl Iterator<Item = &'c str>, delimiter: u8) -> Decimal {
    let (mut comma, mut point, mut either) = (0, 0, 0);
    for cell in cells.filter(|c| looks_numeric(c)) {
        match (cell.rfind(','), cell.rfind('.')) {
            (Some(c), Some(p)) if c > p => comma += 1,
            (_, Some(_)) => point += 1,
            (Some(c), None) if cell.len() - c - 1 != 3 || cell.trim_start_matches('-').starts_with("0,") => comma += 1,
            (Some(_), None) => either += 1,
            (None, None) => {}
        }
    }
    let by_default = delimiter != b',' && point == 0 && either > 0;
    if comma > point || (comma == 0 && by_default) { Decimal::Comma } else { Decimal::Point }
}

fn looks_numeric(cell: &str) -> bool {
    cell.bytes().any(|b| b.is_ascii_digit())
        && cell.bytes().all(|b| b.is_ascii_digit() || matches!(b, b',' | b'.' | b'-' | b'+' | b' ' | b'\''))
}

#[cfg(test)]
mod tests {
    use super::{Decimal, decimal, delimiter};

    #[test]
    fn delimiter_by_consistency() {
        assert_eq!(delimiter(b"a;b;c\n1,5;2,5;3\n4,5;5;6,25\n"), b';');
        assert_eq!(delimiter(b"a,b\n1,2\n3,4\n"), b',');
        assert_eq!(delimiter(b"a\tb\n1,2\t3\n"), b'\t');
        assert_eq!(delimiter(b"a|b\n1|2\n"), b'|');
    }

    #[test]
    fn decimal_sign_by_the_digits_after_it() {
        assert_eq!(decimal(["61,2", "0"].into_iter(), b';'), Decimal::Comma);
        assert_eq!(decimal(["1,234.5"].into_iter(), b','), Decimal::Point);
        assert_eq!(decimal(["1.234,5"].into_iter(), b';'), Decimal::Comma);
        assert_eq!(decimal(["1,234", "2,345"].into_iter(), b';'), Decimal::Comma);
        assert_eq!(decimal(["1,234", "20.5"].into_iter(), b'\t'), Decimal::Point);
    }
}
