//! The cells of one register row, asked by column name.

use super::header::{Column, Header};
use super::rows::Row;
use crate::fact::RegisterFact;
use crate::limits::column_limit;
use crate::register_columns;
use crate::text::cells::{LongCell, open_quote, quoted, rows_inside, split_by_comma};
use crate::text::number::{Cell, Decimal, NumberStyle, TwoReadings};
use crate::text::sniff::number_part;
use crate::toml_source::Range;
use crate::{DefaultCell, Finding, Severity, TrialKind};
use calefact_units::{Kind, Unit, common_fraction, parse_quantity};

/// Columns of words that may hold anything.
const WORDS: [&str; 2] = ["note", "exclude"];

/// Words that say that a row has none of its column, whatever its default.
const NONE: [&str; 3] = ["-", "--", "\u{2013}"];

/// One row and what was found wrong with it.
pub(super) struct Cells<'a> {
    pub(super) header: &'a Header,
    pub(super) row: &'a [String],
    pub(super) line: u64,
    /// Kind of the trial, once it is read: defaults hold for the kinds that have their column.
    pub(super) kind: Option<TrialKind>,
    pub(super) findings: Vec<Finding>,
    /// Whether the row is left out for a reason that stands at the header or in `dataset.toml`, and is told there once.
    pub(super) refused: bool,
}

impl Cells<'_> {
    /// The text of a cell as written; `None` if blank or absent.
    pub(super) fn written(&self, name: &str) -> Option<String> {
        let (index, _) = self.column(name)?;
        self.row.get(index).filter(|c| !c.is_empty()).cloned()
    }

    /// The text of a column: as written, else its default. A dash is none.
    pub(super) fn text(&self, name: &str) -> Option<String> {
        match (self.written(name), self.default_of(name)) {
            (Some(cell), _) if NONE.contains(&cell.as_str()) => None,
            (None, Some(DefaultCell::Text(text))) => Some(text.clone()),
            (written, _) => written,
        }
    }

    /// The default of a column for this kind of trial.
    pub(super) fn default_of(&self, name: &str) -> Option<&DefaultCell> {
        let only = register_columns::column(name).and_then(|c| c.only);
        self.header.defaults.get(name).filter(|_| only.is_none() || only == self.kind)
    }

    /// Refuses a row with a blank cell whose default cannot be used.
    pub(super) fn check_defaults(&mut self) {
        let is_refused = |column: &&str| self.default_of(column) == Some(&DefaultCell::Refused);
        self.refused |=
            register_columns::names().iter().any(|column| is_refused(column) && self.written(column).is_none());
    }

    /// A text that must be there.
    pub(super) fn required(&mut self, name: &str) -> Option<String> {
        let text = self.text(name);
        if text.is_none() && (self.default_of(name) != Some(&DefaultCell::Refused) || self.written(name).is_some()) {
            self.error(name, RegisterFact::Blank { column: name.into() });
        }
        text
    }

    /// A number of a kind in SI; a cell without a unit takes the column's, else SI. The default stands for a blank cell.
    pub(super) fn number(&mut self, name: &str, kind: Kind) -> Option<f64> {
        let Some(text) = self.written(name) else {
            return if let Some(DefaultCell::Number(value)) = self.default_of(name) { Some(*value) } else { None };
        };
        if self.is_spoilt(name) {
            return None;
        }
        let unit = self.unit(name);
        self.value(name, &text, kind, unit)
    }

    /// A number that cannot be below zero.
    pub(super) fn amount(&mut self, name: &str, kind: Kind) -> Option<f64> {
        let value = self.number(name, kind)?;
        if value < 0.0 {
            let cell = self.written(name).unwrap_or_default();
            self.error(name, RegisterFact::Negative { column: name.into(), cell });
            return None;
        }
        Some(value)
    }

    /// A number of a kind within the limits of its column.
    pub(super) fn within(&mut self, name: &str, kind: Kind) -> Option<f64> {
        let value = self.number(name, kind)?;
        self.limited(name, kind, value)
    }

    /// An amount within the limits of its column.
    pub(super) fn measured(&mut self, name: &str, kind: Kind) -> Option<f64> {
        let value = self.amount(name, kind)?;
        self.limited(name, kind, value)
    }

    /// A value, SI, if it can be true; with a finding if it is not plausible. Nothing at all always is.
    pub(super) fn limited(&mut self, name: &str, kind: Kind, value: f64) -> Option<f64> {
        let column = name.to_owned();
        let Some(limit) = column_limit(name, kind == Kind::Mass) else { return Some(value) };
        if !limit.possible.contains(&value) {
            self.error(name, RegisterFact::OutOfRange { column, value, kind, range: limit.range() });
            return None;
        }
        if value == 0.0 || limit.plausible.contains(&value) {
            return Some(value);
        }
        let range = Range::Within(*limit.plausible.start(), *limit.plausible.end());
        let other =
            self.other_reading(name, value).filter(|v| kind != Kind::Temperature && limit.plausible.contains(v));
        let severity = if other.is_some() { Severity::Error } else { Severity::Warning };
        let fact = RegisterFact::Implausible { column, value, kind, range, other };
        self.findings.push(self.at(name, Finding::new(severity, fact)));
        other.is_none().then_some(value)
    }

    /// The value if the mark in a number meant the other thing: a decimal sign, or a thousands separator.
    fn other_reading(&self, name: &str, value: f64) -> Option<f64> {
        let cell = self.written(name).filter(|_| !self.header.sign_is_stated)?;
        let two = TwoReadings::new(number_part(&cell).as_bytes())?;
        let is_decimal = (two.mark == ',') == (self.header.sign.decimal == Decimal::Comma);
        Some(if is_decimal { value * 1000.0 } else { value / 1000.0 })
    }

    /// Whether a quote lets a cell run over its line that is no text, or any to the end of the file, with a finding.
    pub(super) fn is_open(&mut self, row: &Row) -> bool {
        let is_text = |c: &Column| !c.known || WORDS.contains(&c.name.as_str());
        // A closed cell that only ends in a line break holds one line of text.
        let one_line = |cell: &LongCell| !row.never_closed && !row.cells[cell.index].trim().contains('\n');
        let is_words = |cell: &LongCell| self.header.columns.get(cell.index).is_some_and(is_text);
        let fits = |cell: &LongCell| one_line(cell) || is_words(cell) && !self.holds_rows(cell);
        let broken = row.long.iter().find(|cell| !fits(cell)).map(|cell| (*cell, false));
        let found = broken.or_else(|| row.long.last().filter(|_| row.never_closed).map(|cell| (*cell, true)));
        self.findings.extend(found.map(|(cell, never)| open_quote(cell, never)));
        found.is_some()
    }

    /// Whether a long cell holds rows of the register: the next quote of the file closes it, not its own.
    fn holds_rows(&self, cell: &LongCell) -> bool {
        let Some((kind, _)) = self.column("kind") else { return false };
        let text = self.row.get(cell.index).map_or("", String::as_str);
        let is_row = |row: Vec<&str>| row.get(kind).is_some_and(|word| register_columns::kind(word).is_some());
        rows_inside(text, cell.index, self.header.delimiter).any(is_row)
    }

    /// Whether a column's cell runs over its line.
    pub(super) fn is_long(&self, name: &str, row: &Row) -> bool {
        self.column(name).is_some_and(|(index, _)| row.long.iter().any(|cell| cell.index == index))
    }

    /// Whether a cell stands beyond the header, with a finding: the cells before it may stand under the wrong headers.
    pub(super) fn is_surplus(&mut self) -> bool {
        let filled = |filled: usize, (n, text): (usize, &str)| if text.is_empty() { filled } else { n };
        let width = (1..).zip(self.header.columns.iter().map(|c| c.name.as_str())).fold(0, filled);
        let found = (1..).zip(self.row.iter().map(String::as_str)).fold(0, filled);
        let split = self.split_number();
        // An empty cell at the end shifts nothing that can be seen, unless a number takes up two cells.
        let shifted = split.is_some() && self.row.len() > self.header.columns.len();
        if found > width || shifted {
            if self.header.is_sheet {
                let finding = Finding::note(RegisterFact::CellBesideTable);
                self.findings.push(finding.at("", Some(self.line), Some(found as u64)));
                return false;
            }
            let cells = if found > width { found } else { self.row.len() };
            let finding = Finding::error(RegisterFact::TooManyCells { cells, header: width });
            self.findings.push(finding.at("", Some(self.line), Some(width as u64 + 1)));
            return true;
        }
        let header = self.header.columns.len();
        // A spreadsheet may end its rows with any number of blank cells; one more than the header has is what a lost name leaves.
        if self.row.len() == header + 1 && !self.header.is_sheet {
            let finding = Finding::warning(RegisterFact::BlankBeyondHeader { header });
            self.findings.push(finding.at("", Some(self.line), Some(header as u64 + 1)));
        }
        if let Some((column, next, written)) = split {
            let fact = RegisterFact::SplitNumber { column: column.into(), written };
            self.findings.push(self.at(next, Finding::warning(fact)));
        }
        false
    }

    /// A column whose number may go on in the words beside it, as `5,6` does between commas; those, and the number then.
    fn split_number(&self) -> Option<(&'static str, &'static str, String)> {
        let beside = self.header.columns.iter().zip(self.row);
        let pairs = beside.clone().zip(beside.skip(1)).filter(|_| self.header.delimiter == b',');
        pairs.filter(|((a, _), (b, _))| a.known && b.known && b.name == "note").find_map(|(a, b)| {
            let number = register_columns::column(&a.0.name).filter(|c| c.kind().is_some())?;
            let words = register_columns::column(&b.0.name)?;
            Some((number.name, words.name, split_by_comma(a.1.as_bytes(), b.1.as_bytes())?))
        })
    }

    /// Whether the unit of a column could not be read, which the header's finding explains; the row is then left out.
    pub(super) fn is_spoilt(&mut self, name: &str) -> bool {
        let spoilt = self.column(name).is_some_and(|(_, c)| c.spoilt);
        self.refused |= spoilt;
        spoilt
    }

    /// Unit stated in the header of a column.
    pub(super) fn unit(&self, name: &str) -> Option<Unit> {
        self.column(name).and_then(|(_, c)| c.unit)
    }

    /// Reads text as a plain number.
    pub(super) fn read(&self, text: &str) -> Cell {
        let style = NumberStyle { sign: self.header.sign, missing: &self.header.missing };
        style.read(text.as_bytes())
    }

    /// The cell of a further column. Where the file's decimal sign makes its mark part thousands, as in `1,250` beside `5.6`,
    /// the mark is left out, since the column's numbers are read later without that sign.
    pub(super) fn ungrouped(&self, cell: &str) -> String {
        match (TwoReadings::new(cell.as_bytes()), self.read(cell)) {
            (Some(two), Cell::Number(value)) if value.to_bits() == two.grouped.to_bits() => value.to_string(),
            _ => cell.to_owned(),
        }
    }

    /// A number of a further column whose mark may part thousands, though it is read as a decimal sign.
    pub(super) fn open_number(&self, name: &str, cell: &str) -> Option<RegisterFact> {
        let is_open = self.read(cell) == Cell::Ambiguous;
        let readings = TwoReadings::new(cell.as_bytes()).filter(|_| is_open)?;
        Some(RegisterFact::TwoReadings { column: name.into(), cell: cell.into(), readings })
    }

    /// Reads text as a number in a unit, or as a number with its own unit.
    pub(super) fn value(&mut self, name: &str, text: &str, kind: Kind, unit: Option<Unit>) -> Option<f64> {
        match self.read(text) {
            Cell::Number(v) => Some(unit.map_or(v, |u| u.to_si(v))),
            Cell::Blank => None,
            Cell::Ambiguous => self.two_readings(name, text),
            Cell::Unreadable => match (unit, common_fraction(text)) {
                (Some(unit), Some(value)) => Some(unit.to_si(value)),
                _ => self.quantity(name, text, kind),
            },
        }
    }

    /// Reads a number with its own unit, written like the numbers of the file.
    fn quantity(&mut self, name: &str, text: &str, kind: Kind) -> Option<f64> {
        let number = number_part(text);
        let rest = &text[number.len()..];
        let plain = match self.read(number) {
            Cell::Ambiguous => return self.two_readings(name, number),
            Cell::Number(value) => format!("{value}{rest}"),
            _ => text.into(),
        };
        match parse_quantity(&plain, kind) {
            Ok(value) => Some(value),
            Err(error) => {
                let (column, cell) = (name.into(), quoted(text).into());
                let is_quantity = text.starts_with(|c: char| c.is_ascii_digit());
                self.error(
                    name,
                    if is_quantity {
                        RegisterFact::Unit { column, cell, error }
                    } else {
                        RegisterFact::NotANumber { column, cell }
                    },
                );
                None
            }
        }
    }

    fn two_readings(&mut self, name: &str, text: &str) -> Option<f64> {
        if let Some(readings) = TwoReadings::new(text.as_bytes()) {
            self.error(name, RegisterFact::TwoReadings { column: name.into(), cell: text.into(), readings });
        }
        None
    }

    /// Reports an error at a column; the row is then left out.
    pub(super) fn error(&mut self, name: &str, fact: RegisterFact) {
        self.findings.push(self.at(name, Finding::error(fact)));
    }

    /// Puts a finding at a column of this row.
    pub(super) fn at(&self, name: &str, finding: Finding) -> Finding {
        finding.at("", Some(self.line), self.column(name).map(|(i, _)| i as u64 + 1))
    }

    fn column(&self, name: &str) -> Option<(usize, &Column)> {
        self.header.columns.iter().enumerate().find(|(_, c)| c.known && c.name == name)
    }
}
