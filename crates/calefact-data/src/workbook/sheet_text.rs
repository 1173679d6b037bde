//! A sheet as tab-separated text with one line a row, so that the readers of text files read sheets, too: line 14, column 3 of
//! the text is cell C14.

use super::address::{MOST_COLUMNS, MOST_ROWS};
use super::archive::MOST_MIB;
use super::content::{self, Content};
use crate::fact::{SheetFact, WorkbookFailure};
use crate::finding::Repeats;
use crate::layout::FileStyle;
use crate::text::number::{Decimal, DecimalSign, TwoReadings};
use crate::text::sniff::number_part;
use crate::{Finding, Severity};
use encoding_rs::UTF_8;

/// Character between the cells of a sheet as text.
pub(crate) const DELIMITER: u8 = b'\t';

/// A sheet as text would be no larger than this, bytes.
const MOST_BYTES: usize = (MOST_MIB as usize) << 20;

/// A log of a million readings in 20 columns has as many cells.
const MOST_CELLS: u64 = 20_000_000;

/// Cells of one sort: the first, how many more, the last row.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spots {
    first: (u64, Option<u64>),
    more: u64,
    last_row: u64,
}

impl Spots {
    /// Adds a cell, or a row, to those met so far.
    pub(super) fn add(spots: &mut Option<Self>, row: u64, column: Option<u64>) {
        match spots {
            Some(met) => (met.more, met.last_row) = (met.more + 1, row),
            None => *spots = Some(Self { first: (row, column), more: 0, last_row: row }),
        }
    }

    /// A finding at the first of them.
    fn finding(self, severity: Severity, fact: SheetFact) -> Finding {
        let mut finding = Finding::new(severity, fact).at("", Some(self.first.0), self.first.1);
        finding.repeats = (self.more > 0).then_some(Repeats { count: self.more, last_line: self.last_row });
        finding
    }
}

/// A sheet being written, or as written.
#[derive(Debug, Clone, Default)]
pub(crate) struct SheetText {
    text: String,
    /// Row and column of the last cell, from 1.
    at: (u64, u64),
    cells: u64,
    /// Where the decimal points of numbers stand in the text; the marks in cells of text are as typed.
    points: Vec<usize>,
    /// Numbers typed as text that show a decimal comma, and a decimal point.
    commas: usize,
    full_stops: usize,
    /// Whether a number typed as text has two readings.
    unsure: bool,
    errors: Option<Spots>,
    first_error: Option<String>,
    hidden: Option<Spots>,
    merged: Option<Spots>,
    /// Rows that the first merged cell spans.
    merged_rows: u64,
}

impl SheetText {
    /// Writes a cell at a row and column from 1; cells come row by row, from left to right.
    pub(super) fn cell(&mut self, row: u64, column: u64, content: &Content) -> Result<(), WorkbookFailure> {
        let fits = (1..=MOST_ROWS).contains(&row) && (1..=MOST_COLUMNS).contains(&column);
        if !fits || (row, column) <= self.at {
            return Err(WorkbookFailure::Damaged);
        }
        let (last_row, last_column) = self.at;
        let (lines, from) = if row > last_row { (row - last_row.max(1), 1) } else { (0, last_column) };
        self.text.extend(std::iter::repeat_n('\n', lines as usize));
        self.text.extend(std::iter::repeat_n('\t', (column - from) as usize));
        self.at = (row, column);
        self.cells += 1;
        if self.cells > MOST_CELLS {
            return Err(WorkbookFailure::TooManyCells(MOST_CELLS));
        }
        self.content(row, column, content);
        if self.text.len() > MOST_BYTES { Err(WorkbookFailure::TooLarge(MOST_MIB)) } else { Ok(()) }
    }

    fn content(&mut self, row: u64, column: u64, content: &Content) {
        match content {
            Content::Number(value) => self.number(*value),
            Content::Percent(value) => {
                self.number(value * 100.0);
                self.text.push_str(" %");
            }
            Content::Time(text) => self.text.push_str(text),
            Content::Text(text) => {
                self.vote(text.trim());
                self.words(text);
            }
            Content::Error(text) => {
                Spots::add(&mut self.errors, row, Some(column));
                self.first_error.get_or_insert_with(|| text.clone());
            }
        }
    }

    fn number(&mut self, value: f64) {
        let text = content::number(value);
        self.points.extend(text.find('.').map(|at| self.text.len() + at));
        self.text.push_str(&text);
    }

    /// Words on one line; quotes are doubled as in CSV.
    fn words(&mut self, text: &str) {
        if !text.contains(|c: char| c.is_control() || c == '"') {
            self.text.push_str(text);
            return;
        }
        let text = text.replace(char::is_control, " ");
        if text.contains('"') {
            self.text.extend(["\"", &text.replace('"', "\"\""), "\""]);
        } else {
            self.text.push_str(&text);
        }
    }

    /// The decimal sign that a number typed as text shows. Dates have two marks of one sort.
    fn vote(&mut self, text: &str) {
        let number = number_part(text);
        if TwoReadings::new(number.as_bytes()).is_some() {
            self.unsure = true;
            return;
        }
        let is_mark = |c: char| matches!(c, ',' | '.');
        let Some(at) = number.rfind(is_mark).filter(|at| number[at + 1..].starts_with(|c: char| c.is_ascii_digit()))
        else {
            return;
        };
        let mark = &number[at..=at];
        if number.matches(mark).count() == 1 && text.starts_with(number) {
            *if mark == "," { &mut self.commas } else { &mut self.full_stops } += 1;
        }
    }

    /// Notes a hidden row.
    pub(super) fn hide(&mut self, row: u64) {
        Spots::add(&mut self.hidden, row, None);
    }

    /// Notes a cell merged over several rows.
    pub(super) fn merge(&mut self, row: u64, column: u64, rows: u64) {
        self.merged_rows = if self.merged.is_none() { rows } else { self.merged_rows };
        Spots::add(&mut self.merged, row, Some(column));
    }

    /// Findings on the sheet.
    pub(crate) fn findings(&self) -> Vec<Finding> {
        let warning = |spots: Option<Spots>, fact| spots.map(|spots| spots.finding(Severity::Warning, fact));
        let errors = warning(self.errors, SheetFact::ErrorCell(self.first_error.clone().unwrap_or_default()));
        let merged = warning(self.merged, SheetFact::MergedRows(self.merged_rows));
        let hidden = self.hidden.map(|spots| {
            let rows = spots.more + 1;
            Spots { more: 0, ..spots }.finding(Severity::Note, SheetFact::HiddenRows(rows))
        });
        errors.into_iter().chain(merged).chain(hidden).collect()
    }

    /// The text, and the style that its reader is to take it in; `stated` is the style of the files of the dataset. Numbers are
    /// written with the decimal sign that the numbers typed as text have, so that one sign holds for all.
    pub(crate) fn styled(&self, stated: &FileStyle) -> (String, FileStyle) {
        let sign = stated.decimal.unwrap_or_else(|| self.sign());
        let style = FileStyle {
            delimiter: Some(DELIMITER),
            decimal: Some(sign),
            encoding: Some(UTF_8),
            is_sheet: true,
            skip_lines: stated.skip_lines,
            missing: stated.missing.clone(),
        };
        (self.text_with(sign), style)
    }

    fn sign(&self) -> DecimalSign {
        let decimal = if self.commas > self.full_stops { Decimal::Comma } else { Decimal::Point };
        let is_open = self.unsure && (self.commas > 0) == (self.full_stops > 0);
        DecimalSign { decimal, open: if is_open { ",." } else { "" } }
    }

    /// The text with the decimal points of its numbers in a sign. Where a mark before three digits may part thousands, as in
    /// text, a number has a fourth decimal, so that it has one reading.
    fn text_with(&self, sign: DecimalSign) -> String {
        let mark = if sign.decimal == Decimal::Comma { "," } else { "." };
        let mut text = String::with_capacity(self.text.len() + self.points.len());
        let mut from = 0;
        for &point in &self.points {
            text.push_str(&self.text[from..point]);
            text.push_str(mark);
            let decimals = self.text[point + 1..].bytes().take_while(u8::is_ascii_digit).count();
            from = point + 1 + decimals;
            text.push_str(&self.text[point + 1..from]);
            text.push_str(if decimals == 3 && !sign.open.is_empty() { "0" } else { "" });
        }
        text.push_str(&self.text[from..]);
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(rows: &[&[Content]]) -> SheetText {
        let mut sheet = SheetText::default();
        for (row, cells) in (1..).zip(rows) {
            for (column, content) in (1..).zip(*cells) {
                sheet.cell(row, column, content).expect("a cell that fits");
            }
        }
        sheet
    }

    fn words(text: &str) -> Content {
        Content::Text(text.into())
    }

    #[test]
    fn rows_and_columns_are_lines_and_cells() {
        let mut sheet = SheetText::default();
        sheet.cell(2, 3, &words("a \"b\"\tc")).expect("a cell");
        sheet.cell(2, 4, &Content::Number(61.2)).expect("a cell");
        sheet.cell(5, 1, &Content::Percent(0.18)).expect("a cell");
        assert_eq!(sheet.styled(&FileStyle::default()).0, "\n\t\t\"a \"\"b\"\" c\"\t61.2\n\n\n18 %");
        for (row, column) in [(5, 1), (4, 9), (6, 0), (MOST_ROWS + 1, 1), (6, MOST_COLUMNS + 1)] {
            assert_eq!(sheet.cell(row, column, &words("x")), Err(WorkbookFailure::Damaged));
        }
    }

    #[test]
    fn numbers_take_the_decimal_sign_of_numbers_typed_as_text() {
        let written = |cells: &[Content]| {
            let (text, style) = sheet(&[cells]).styled(&FileStyle::default());
            (text, style.decimal.expect("a sign"))
        };
        let number = Content::Number(5.625);
        let (text, sign) = written(&[words("61,2"), words("24.03.2026"), number.clone()]);
        assert_eq!((text.as_str(), sign), ("61,2\t24.03.2026\t5,625", Decimal::Comma.into()));
        let (text, sign) = written(&[words("5,600"), number.clone()]);
        assert_eq!((text.as_str(), sign.open), ("5,600\t5.6250", ",."));
        let (text, sign) = written(&[words("5,600"), words("0,5 kg"), number.clone()]);
        assert_eq!((text.as_str(), sign.open), ("5,600\t0,5 kg\t5,625", ""));
        assert_eq!(written(&[number]), ("5.625".into(), Decimal::Point.into()));
    }

    #[test]
    fn errors_are_blank_and_told_once() {
        let error = |text: &str| Content::Error(text.into());
        let sheet = sheet(&[&[words("a")], &[error("#DIV/0!"), words("b")], &[error("#N/A")]]);
        assert_eq!(sheet.styled(&FileStyle::default()).0, "a\n\tb\n");
        let [finding] = &sheet.findings()[..] else { panic!("one finding") };
        assert_eq!((finding.line, finding.column), (Some(2), Some(1)));
        assert_eq!(finding.repeats, Some(Repeats { count: 1, last_line: 3 }));
    }
}
