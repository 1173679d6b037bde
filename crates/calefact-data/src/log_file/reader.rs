//! The pass over the rows of a log.

use super::assumed::Assumptions;
use super::clock::Clock;
use super::columns::{Columns, TimeForm};
use super::layout::Layout;
use super::series::Series;
use super::trial::{self, LogTrial, Wanted};
use super::unregistered::Unregistered;
use super::{elapsed, finish, read_as};
use crate::fact::Log;
use crate::layout::LogSettings;
use crate::text::cells::{LongCell, ends_closed, for_each_row, long_cells, open_quote, rows_inside, split_by_comma};
use crate::text::number::{Cell, NumberStyle};
use crate::{Channel, Finding};
use std::collections::HashMap;
use std::ops::ControlFlow;

/// A log being read.
pub(super) struct Reader<'a> {
    layout: &'a Layout,
    pub(super) settings: &'a LogSettings,
    pub(super) style: NumberStyle<'a>,
    pub(super) columns: Columns,
    wanted: &'a [Wanted<'a>],
    series: Vec<Series<'a>>,
    /// Series of the last row.
    current: usize,
    /// Place of each wanted trial.
    places: HashMap<&'a [u8], usize>,
    /// Trials that are not wanted.
    unregistered: Unregistered,
    /// Rows seen below the latest header.
    pub(super) below_header: u64,
    /// Findings on the headers.
    pub(super) header: Vec<Finding>,
    /// Whether a cell may go over the end of its line.
    quoted: bool,
    /// The text cell at the end of the last row, if it goes over the end of its line.
    long_text: Option<LongCell>,
    /// Units that the headers do not state.
    pub(super) assumptions: Assumptions,
}

impl<'a> Reader<'a> {
    /// A reader of a log whose trials have about `rows` readings each.
    pub(super) fn new(layout: &'a Layout, settings: &'a LogSettings, wanted: &'a [Wanted<'a>], rows: usize) -> Self {
        let series = wanted.iter().map(|w| Series::new(Clock::new(settings, w.date), rows)).collect();
        let style = NumberStyle { sign: layout.sign, missing: &settings.style.missing };
        let columns = layout.columns.clone();
        let header = columns.findings.clone();
        Self {
            layout,
            settings,
            style,
            columns,
            wanted,
            series,
            current: 0,
            places: wanted.iter().enumerate().rev().map(|(at, w)| (w.trial.as_bytes(), at)).collect(),
            unregistered: Unregistered::default(),
            below_header: 0,
            header,
            quoted: false,
            long_text: None,
            assumptions: Assumptions::default(),
        }
    }

    /// Reads all rows below the header.
    pub(super) fn read(mut self, text: &[u8]) -> Vec<LogTrial> {
        if let Some(finding) = self.trial_column_missing() {
            return trial::refuse(&finding, self.wanted);
        }
        self.quoted = memchr::memchr(b'"', text).is_some();
        for_each_row(text, self.layout.delimiter, |line, cells| {
            if line > self.layout.line {
                self.row(line, cells);
            }
            let all_stopped = self.columns.trial.is_none() && self.series.iter().all(|s| s.stopped);
            if all_stopped { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        if let Some(cell) = self.long_text.filter(|_| !ends_closed(text)) {
            self.header.push(open_quote(cell, true));
        }
        let tank = self.columns.values.iter().find(|v| v.channel == Channel::Tank).map(|v| v.unit);
        let columns = read_as::columns(&self.columns);
        let mut trials =
            finish::trials(self.series, &self.header, self.unregistered.ids(), self.wanted, (tank, &columns));
        if let Some(first) = trials.first_mut() {
            first.findings.extend(self.assumptions.finding());
        }
        trials
    }

    fn trial_column_missing(&self) -> Option<Finding> {
        if self.wanted.len() < 2 || self.columns.trial.is_some() {
            return None;
        }
        let ids = self.wanted.iter().map(|w| w.trial).collect();
        Some(Log::TrialColumnMissing(ids).into())
    }

    fn row(&mut self, line: u64, cells: &[&[u8]]) {
        let Some((index, form)) = self.columns.time else { return };
        let cell = cells.get(index).copied().unwrap_or_default();
        // Spreadsheets leave rows without text below a table.
        if cell.trim_ascii().is_empty() && cells.iter().all(|c| c.trim_ascii().is_empty()) {
            return;
        }
        self.below_header += 1;
        // The time cell shows a repeated header or a row of units, which belong to no trial.
        if self.may_be_header(cell, cells) && self.is_header_or_units(line, cells) {
            self.long_text = None;
            return;
        }
        self.close_header(cell, cells);
        if self.quoted && self.is_open(line, cells) {
            return;
        }
        let Some(at) = self.series_of(line, cells) else { return };
        let series = &mut self.series[at];
        series.rows += 1;
        if series.stopped || self.columns_surplus(at, line, cells) {
            return;
        }
        let series = &mut self.series[at];
        let column = index as u64 + 1;
        let time = match form {
            TimeForm::Elapsed(form) => elapsed::read(cell, form, &self.style),
            TimeForm::Clock | TimeForm::Open => match self.columns.date.and_then(|date| cells.get(date)) {
                Some(date) if !date.trim_ascii().is_empty() => series.clock.read(&[date, cell].join(&b' ')),
                _ => series.clock.read(cell),
            },
        };
        if let Some(fact) = time.problem(cell) {
            series.problems.add(fact, line, column);
        }
        let Some(time) = time.seconds() else { return };
        if series.open(time, cell, line, column) {
            let clock = self.columns.clock.filter(|_| form != TimeForm::Clock);
            series.check_clock(time, clock, cells, line);
            series.take(&self.columns.values, cells, line, &self.style);
            series.remark(&self.columns.words, cells, self.columns.width, self.layout.delimiter);
        } else {
            series.compare(&self.columns.values, cells, &self.style);
        }
    }

    /// A number with a decimal comma in a comma-delimited row shifts every cell after it: the trial is then not read on. Words
    /// at the end of a row may hold commas.
    fn columns_surplus(&mut self, at: usize, line: u64, cells: &[&[u8]]) -> bool {
        let width = self.columns.width;
        let ends_in_text = self.columns.words.iter().any(|(i, _)| *i + 1 == width);
        let is_blank = || cells[width..].iter().all(|c| c.trim_ascii().is_empty());
        if self.settings.style.is_sheet {
            let beside = cells.iter().skip(width).position(|c| !c.trim_ascii().is_empty()).filter(|_| !ends_in_text);
            if let Some(index) = beside {
                self.series[at].problems.add(Log::CellBesideTable, line, (width + index) as u64 + 1);
            }
            return false;
        }
        let split = self.split_number(cells);
        let is_shifted = cells.len() > width && (split.is_some() || self.number_in_words(cells));
        let series = &mut self.series[at];
        if is_shifted || cells.len() > width && !ends_in_text && !is_blank() {
            series.stopped = true;
            let fact = Log::TooManyCells { cells: cells.len(), header: width };
            series.problems.add(fact, line, width as u64 + 1);
            return true;
        }
        if let Some((fact, column)) = split {
            series.problems.add(fact, line, column);
        }
        false
    }

    /// Whether a number stands among the words behind a whole number: a decimal comma before them shifts the rest of the row.
    fn number_in_words(&self, cells: &[&[u8]]) -> bool {
        let is_number = |at: usize| cells.get(at).is_some_and(|c| matches!(self.style.read(c), Cell::Number(_)));
        let is_whole = |at: usize| is_number(at) && cells[at].trim_ascii().iter().all(u8::is_ascii_digit);
        let mut words = self.columns.words.iter().map(|(index, _)| *index).filter(|_| self.layout.delimiter == b',');
        words.any(|at| is_number(at) && at.checked_sub(1).is_some_and(is_whole))
    }

    /// A number that goes on in the words beside it, as `13,5` does between commas, and the column of the words.
    fn split_number(&self, cells: &[&[u8]]) -> Option<(Log, u64)> {
        let words = self.columns.words.iter().filter(|_| self.layout.delimiter == b',');
        words.map(|(index, _)| *index).find_map(|index| {
            let number = self.columns.values.iter().find(|v| v.index + 1 == index)?;
            let written = split_by_comma(cells.get(number.index)?, cells.get(index)?)?;
            Some((Log::SplitNumber { channel: number.channel, written }, index as u64 + 1))
        })
    }

    /// Where a quote turns several lines into one number or time, rows are lost, of any trial: no trial is read on.
    fn is_open(&mut self, line: u64, cells: &[&[u8]]) -> bool {
        let long = long_cells(line, cells);
        self.long_text = long.last().copied().filter(|c| c.is_last);
        let Columns { time, trial, values, .. } = &self.columns;
        let ids = [time.map(|(index, _)| index), *trial];
        let is_read = |i: usize| ids.contains(&Some(i)) || values.iter().any(|v| v.index == i);
        let is_broken = |c: &LongCell| is_read(c.index) || self.holds_rows(c.index, cells[c.index]);
        let Some(cell) = long.into_iter().find(is_broken) else { return false };
        if self.header.iter().all(|f| f.code() != "quote-open") {
            self.header.push(open_quote(cell, false));
        }
        self.long_text = None;
        self.series.iter_mut().for_each(|s| s.stopped = true);
        true
    }

    /// Whether a long cell holds rows of the log: the next quote of the file closes it, not its own.
    fn holds_rows(&self, index: usize, cell: &[u8]) -> bool {
        let number = self.columns.values.first().map(|v| v.index);
        let wanted: Vec<usize> = self.columns.time.map(|(time, _)| time).into_iter().chain(number).collect();
        let text = String::from_utf8_lossy(cell);
        let mut rows = rows_inside(&text, index, self.layout.delimiter).enumerate();
        rows.any(|(n, row)| {
            // Of its first line, only the cells behind this one can be seen.
            let (seen, whole) = if n == 0 { (index + 1, row.len() == self.columns.width) } else { (0, true) };
            let mut cells = wanted.iter().filter(|at| **at >= seen).map(|at| row.get(*at).copied().unwrap_or_default());
            whole && wanted.iter().any(|at| *at >= seen) && cells.all(is_number_or_time)
        })
    }

    fn series_of(&mut self, line: u64, cells: &[&[u8]]) -> Option<usize> {
        let Some(index) = self.columns.trial else { return Some(0) };
        let id = cells.get(index).copied().unwrap_or_default().trim_ascii();
        if self.wanted[self.current].trial.as_bytes() == id {
            return Some(self.current);
        }
        if let Some(&at) = self.places.get(id) {
            self.current = at;
            return Some(at);
        }
        self.unregistered.add(id, line);
        None
    }
}

/// Whether a text may be a number or a time: `61.2`, `2026-03-28T10:50Z`, `9:15 pm`.
fn is_number_or_time(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit() || c == '-')
        && text.bytes().all(|b| b.is_ascii_digit() || b"+-.,:/ TZAPMapm".contains(&b))
}
