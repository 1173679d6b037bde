//! The row of headers of a table whose columns are not known: the last row of words above the first rows of numbers.

use crate::log_file::knows_clock;
use crate::text::cells::preview;
use crate::text::header::split_unit;
use crate::text::number::{DecimalSign, NumberStyle};
use crate::text::sniff::{self, Votes, number_part};
use calefact_units::{Kind, Unit, parse_quantity};

/// Rows looked at.
const ROWS: usize = 400;

/// The headers of a table and the rows below them.
pub(super) struct Head {
    pub(super) headers: Vec<String>,
    /// Cells of a row of units below the headers.
    pub(super) units: Vec<String>,
    pub(super) rows: Vec<Vec<String>>,
    /// Text above the headers.
    pub(super) above: String,
    pub(super) sign: DecimalSign,
    pub(super) delimiter: u8,
    /// Line of the first row of numbers.
    pub(super) line: u64,
}

/// Finds the headers of a text with a known delimiter, or with that which its rows show; none where no row of words stands above
/// rows of numbers.
pub(super) fn find(text: &[u8], delimiter: Option<u8>) -> Option<Head> {
    let delimiter = delimiter.unwrap_or_else(|| sniff::delimiter(text));
    let (lines, rows): (Vec<u64>, Vec<Vec<String>>) = preview(text, delimiter, ROWS).into_iter().unzip();
    let first = rows.iter().position(|row| is_data(row))?;
    let is_head = |row: &Vec<String>| row.iter().filter(|c| !c.is_empty()).count() >= 2;
    let mut head = (0..first).rev().find(|i| is_head(&rows[*i]))?;
    let mut units = Vec::new();
    if head > 0 && is_units(&rows[head]) && is_head(&rows[head - 1]) {
        units.clone_from(&rows[head]);
        head -= 1;
    }
    let below: Vec<Vec<String>> = rows[first..].to_vec();
    let mut votes = Votes::default();
    below.iter().flatten().filter(|c| !is_time(c)).for_each(|cell| votes.add(cell, |_| true));
    Some(Head {
        headers: rows[head].clone(),
        units,
        above: rows[..head].iter().flatten().cloned().collect::<Vec<_>>().join(" "),
        rows: below,
        sign: votes.sign(delimiter),
        delimiter,
        line: lines[first],
    })
}

impl Head {
    /// The cells of a column that are not blank.
    pub(super) fn cells(&self, index: usize) -> impl Iterator<Item = &str> {
        self.rows.iter().filter_map(move |row| row.get(index)).map(String::as_str).filter(|c| !c.is_empty())
    }

    /// The numbers of a column.
    pub(super) fn numbers(&self, index: usize) -> Vec<f64> {
        let style = NumberStyle { sign: DecimalSign { open: "", ..self.sign }, missing: &[] };
        let number = |cell: &str| match style.read(number_of(cell).as_bytes()) {
            crate::text::number::Cell::Number(value) => Some(value),
            _ => None,
        };
        self.cells(index).filter_map(number).collect()
    }

    /// A unit of a kind that the header or the row of units states.
    pub(super) fn unit(&self, index: usize, kinds: &[Kind]) -> Option<Unit> {
        let header = self.headers.get(index)?;
        let (name, bracket) = split_unit(header);
        let below = self.units.get(index).map(|c| c.trim_matches(['[', ']', '(', ')'])).filter(|c| !c.is_empty());
        let words = name.split([' ', '_', ',', ';', '(', ')', '[', ']']).skip(1).filter(|w| !w.is_empty());
        let words: Vec<&str> = words.collect();
        let mut stated = bracket.into_iter().chain(below).chain(words.into_iter().rev());
        let stated = stated.find_map(|text| kinds.iter().find_map(|kind| Unit::parse(text, *kind).ok()));
        stated.or_else(|| kinds.iter().find_map(|kind| Unit::parse(self.cell_unit(index)?, *kind).ok()))
    }

    /// The unit that the first cell of a column states behind its number, as in `56 F`.
    pub(super) fn cell_unit(&self, index: usize) -> Option<&str> {
        self.cells(index).next().and_then(unit_behind)
    }
}

/// Kinds of unit that a row below the headers, or a cell behind its number, may state.
const KINDS: [Kind; 6] = [Kind::Time, Kind::Temperature, Kind::Mass, Kind::VolumeFlow, Kind::Power, Kind::Fraction];

/// The unit behind the number of a cell.
fn unit_behind(cell: &str) -> Option<&str> {
    let number = number_part(cell);
    let unit = cell[number.len()..].trim();
    let is_unit = !number.is_empty() && KINDS.iter().any(|kind| Unit::parse(unit, *kind).is_ok());
    is_unit.then_some(unit)
}

/// A cell without the unit behind its number.
fn number_of(cell: &str) -> &str {
    if unit_behind(cell).is_some() { number_part(cell) } else { cell }
}

/// Whether most cells of a row, and two at least, are numbers or times; a register has many words beside few numbers.
fn is_data(row: &[String]) -> bool {
    let filled = row.iter().filter(|c| !c.is_empty()).count();
    // Weights may be written in parts, `18 lb 4 oz`.
    let is_amount = |c: &String| unit_behind(c).is_some() || parse_quantity(c, Kind::Mass).is_ok();
    let numbers = row.iter().filter(|c| is_number(c) || is_time(c) || is_amount(c)).count();
    filled >= 2 && numbers >= 2 && 3 * numbers >= filled
}

fn is_units(row: &[String]) -> bool {
    let is_unit = |cell: &String| {
        let text = cell.trim_matches(['[', ']', '(', ')']);
        text.is_empty() || text.contains(":mm") || KINDS.iter().any(|kind| Unit::parse(text, *kind).is_ok())
    };
    row.iter().all(is_unit)
}

fn is_number(cell: &str) -> bool {
    let rest = cell.trim_start_matches(['-', '+', '\u{2212}']);
    rest.starts_with(|c: char| c.is_ascii_digit())
        && rest.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '\'' | ' ' | 'e' | 'E' | '-' | '+'))
}

/// Whether a cell may be a date, a time or both.
pub(super) fn is_time(cell: &str) -> bool {
    let marks = cell.chars().filter(|c| matches!(c, ':' | '/' | '-' | '.')).count();
    let letters = cell.chars().filter(|c| c.is_alphabetic()).count();
    let has_clock = cell.contains(':');
    let dated = marks >= 2 && cell.chars().next().is_some_and(|c| c.is_ascii_digit()) && letters == 0;
    let with_letters = || letters > 0 && knows_clock(&[cell]);
    cell.starts_with(|c: char| c.is_ascii_digit())
        && (has_clock && letters <= 4 || dated && !is_number_only(cell) || with_letters())
}

/// `1.234.567` is a number; `24.03.2026` is a date.
fn is_number_only(cell: &str) -> bool {
    let groups: Vec<&str> = cell.split(['.', '-', '/']).collect();
    groups.len() > 2 && groups[1..].iter().all(|g| g.len() == 3) || groups.iter().any(|g| g.is_empty())
}

#[cfg(test)]
mod tests {
    use super::{find, is_time};

    #[test]
    fn headers_stand_above_numbers_and_units_between() {
        let text =
            b"Logger 7;made 2026-03-24\n\nZeit;Fass;Luft\nhh:mm;\xc2\xb0C;\xc2\xb0C\n10:05;11,5;8,0\n10:20;14,5;8,2\n";
        let head = find(text, None).expect("a head");
        assert_eq!(head.headers, ["Zeit", "Fass", "Luft"]);
        assert_eq!((head.numbers(1), head.rows.len()), (vec![11.5, 14.5], 2));
        assert!(head.unit(1, &[calefact_units::Kind::Temperature]).is_some_and(|u| u.symbol == "degC"));
        assert!(head.above.contains("2026-03-24"));
        assert!(
            find(b"0,10\n15,20\n", None).is_none() && find(b"", None).is_none() && find(b"a,b\nc,d\n", None).is_none()
        );
    }

    #[test]
    fn times_are_no_numbers() {
        for time in ["22:58", "24.03.2026", "2026-03-24 22:58:10", "3/14/2026", "4:00 p.m."] {
            assert!(is_time(time), "{time}");
        }
        for other in ["12.5", "1.234.567", "-3", "b-1", "", "1e-3"] {
            assert!(!is_time(other), "{other}");
        }
    }

    /// A sheet as text: its decimal commas, one a row, are no delimiter.
    #[test]
    fn commas_do_not_cut_a_sheet() {
        let text = "Burn\tWood, dry (kg)\tWater\tNote\nb1\t5,2\t120\tlit late\nb2\t4,9\t118\tdry\n";
        let head = find(text.as_bytes(), Some(b'\t'));
        assert!(find(text.as_bytes(), None).is_none_or(|head| head.headers.len() < 4), "guessing would not do");
        let head = head.expect("headers");
        assert_eq!((head.headers.len(), head.rows.len()), (4, 2));
    }

    #[test]
    fn rows_of_weights_in_parts_are_no_headers() {
        let text = "Burn,Wood,Water\nA,18 lb 4 oz,30\nB,16 lb 9 oz,30\n";
        let head = find(text.as_bytes(), None).expect("headers");
        assert_eq!((head.headers[1].as_str(), head.rows.len()), ("Wood", 2));
    }
}
