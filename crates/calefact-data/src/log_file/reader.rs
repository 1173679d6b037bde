//! The pass over the rows of a log.

use super::assumed::Assumptions;
use super::clock::Clock;
use super::columns::{self, Columns, TimeForm};
use super::elapsed::{self, TimeCell};
use super::layout::Layout;
use super::series::Series;
use super::{LogTrial, Wanted, finish, times};
use crate::Finding;
use crate::dataset_file::LogSettings;
use crate::text::cells::{LongCell, as_text, ends_closed, for_each_row, long_cells, open_quote};
use crate::text::number::{Cell, NumberStyle};
use std::ops::ControlFlow;

/// A log being read.
pub(super) struct Reader<'a> {
    layout: &'a Layout,
    settings: &'a LogSettings,
    style: NumberStyle<'a>,
    columns: Columns,
    wanted: &'a [Wanted<'a>],
    series: Vec<Series<'a>>,
    /// Series of the last row.
    current: usize,
    /// Trial ids that nobody asked for, with their first line.
    strangers: Vec<(String, u64)>,
    /// Rows seen below the latest header.
    below_header: u64,
    /// What the headers gave cause to say.
    header: Vec<Finding>,
    /// Whether a cell may go over the end of its line.
    quoted: bool,
    /// The words at the end of the last row, if they go over the end of their line.
    long_words: Option<LongCell>,
    /// Units that the headers do not state.
    assumptions: Assumptions,
}

impl<'a> Reader<'a> {
    /// A reader of a log whose trials have about `rows` readings each.
    pub(super) fn new(layout: &'a Layout, settings: &'a LogSettings, wanted: &'a [Wanted<'a>], rows: usize) -> Self {
        let series = wanted.iter().map(|w| Series::new(Clock::new(settings, w.date), rows)).collect();
        let style = NumberStyle { decimal: layout.decimal, missing: &settings.style.missing };
        let (columns, strangers) = (layout.columns.clone(), Vec::new());
        let header = columns.findings.clone();
        Self {
            layout,
            settings,
            style,
            columns,
            wanted,
            series,
            current: 0,
            strangers,
            below_header: 0,
            header,
            quoted: false,
            long_words: None,
            assumptions: Assumptions::default(),
        }
    }

    /// Reads all rows below the header.
    pub(super) fn read(mut self, text: &[u8]) -> Vec<LogTrial> {
        if let Some(finding) = self.cannot_tell_trials_apart() {
            return self.wanted.iter().map(|_| LogTrial { readings: None, findings: vec![finding.clone()] }).collect();
        }
        self.quoted = memchr::memchr(b'"', text).is_some();
        for_each_row(text, self.layout.delimiter, |line, cells| {
            if line > self.layout.line {
                self.row(line, cells);
            }
            let all_stopped = self.columns.trial.is_none() && self.series.iter().all(|s| s.stopped);
            if all_stopped { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        if let Some(cell) = self.long_words.filter(|_| !ends_closed(text)) {
            self.header.push(open_quote(cell, true));
        }
        let mut trials = finish::trials(self.series, &self.header, &self.strangers, self.wanted);
        if let Some(first) = trials.first_mut() {
            first.findings.extend(self.assumptions.finding());
        }
        trials
    }

    fn cannot_tell_trials_apart(&self) -> Option<Finding> {
        if self.wanted.len() < 2 || self.columns.trial.is_some() {
            return None;
        }
        let ids: Vec<&str> = self.wanted.iter().map(|w| w.trial).collect();
        let message = format!(
            "the register gives this log to several trials ({}), but no column tells them apart",
            ids.join(", ")
        );
        let finding = Finding::error("trial-column-missing", message).action("trials left out");
        Some(finding.hint("name the column under [logs] as `trial_column`, or give each trial its own log"))
    }

    fn row(&mut self, line: u64, cells: &[&[u8]]) {
        let Some((index, form)) = self.columns.time else { return };
        self.below_header += 1;
        let cell = cells.get(index).copied().unwrap_or_default();
        // A repeated header or a row of units is told by its time cell, and belongs to no trial.
        if self.may_be_header(cell, cells) && self.is_header_or_units(line, cells) {
            return;
        }
        self.close_header(cell);
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
            TimeForm::Clock => series.clock.read(cell),
        };
        if !matches!(time, TimeCell::Seconds(_)) {
            series.problems.add(times::code(time), line, column, || times::finding(time, cell));
        }
        if let TimeCell::Seconds(t) | TimeCell::Skipped(t) = time
            && series.open(t, cell, line, column)
        {
            series.take(&self.columns.values, cells, line, &self.style);
            series.remark(&self.columns.words, cells);
        }
    }

    /// At the first reading below a header, columns still without a unit become findings.
    fn close_header(&mut self, time: &[u8]) {
        let line = self.columns.line;
        self.assumptions.close(&mut self.columns, time);
        for (value, cell) in std::mem::take(&mut self.columns.unitless) {
            let finding = columns::missing_unit(value.channel, &cell);
            self.header.push(finding.at("", Some(line), Some(value.index as u64 + 1)));
        }
    }

    /// A number with a decimal comma in a comma-delimited row would shift every cell after it; better no reading.
    fn columns_surplus(&mut self, at: usize, line: u64, cells: &[&[u8]]) -> bool {
        let width = self.columns.width;
        let ends_in_words = self.columns.words.iter().any(|(i, _)| *i + 1 == width);
        if cells.len() <= width || ends_in_words || cells[width..].iter().all(|c| c.trim_ascii().is_empty()) {
            return false;
        }
        let found = cells.len();
        let series = &mut self.series[at];
        series.stopped = true;
        series.problems.add("too-many-cells", line, width as u64 + 1, || {
            Finding::error("", format!("the row has {found} cells, the header {width}"))
                .action("trial left out")
                .hint("decimal commas in a file delimited by commas? write it with semicolons or decimal points")
        });
        true
    }

    /// Where a quote makes a number or a time of several lines, rows are lost, of whatever trial: none is read on.
    fn is_open(&mut self, line: u64, cells: &[&[u8]]) -> bool {
        let long = long_cells(line, cells);
        self.long_words = long.last().copied().filter(|c| c.is_last);
        let Columns { time, trial, values, .. } = &self.columns;
        let ids = [time.map(|(index, _)| index), *trial];
        let is_read = |i: usize| ids.contains(&Some(i)) || values.iter().any(|v| v.index == i);
        let Some(cell) = long.into_iter().find(|c| is_read(c.index)) else { return false };
        if self.header.iter().all(|f| f.code != "quote-open") {
            self.header.push(open_quote(cell, false));
        }
        self.long_words = None;
        self.series.iter_mut().for_each(|s| s.stopped = true);
        true
    }

    fn series_of(&mut self, line: u64, cells: &[&[u8]]) -> Option<usize> {
        let Some(index) = self.columns.trial else { return Some(0) };
        let id = cells.get(index).copied().unwrap_or_default().trim_ascii();
        if self.wanted[self.current].trial.as_bytes() == id {
            return Some(self.current);
        }
        if let Some(at) = self.wanted.iter().position(|w| w.trial.as_bytes() == id) {
            self.current = at;
            return Some(at);
        }
        let id = String::from_utf8_lossy(id);
        if self.strangers.iter().all(|(s, _)| *s != id) {
            self.strangers.push((id.into_owned(), line));
        }
        None
    }

    /// A cheap look first: words for a time, and no number in the first column of numbers.
    fn may_be_header(&self, time: &[u8], cells: &[&[u8]]) -> bool {
        let number = |i: usize| cells.get(i).is_some_and(|c| matches!(self.style.read(c), Cell::Number(_)));
        !starts_with_digit(time) && !self.columns.values.first().is_some_and(|v| number(v.index))
    }

    fn is_header_or_units(&mut self, line: u64, cells: &[&[u8]]) -> bool {
        let text: Vec<String> = cells.iter().map(|c| as_text(c)).collect();
        let again = columns::resolve(&text, line, self.settings);
        if again.is_complete() {
            let new = |f: &&Finding| self.header.iter().all(|h| (h.code, &h.message) != (f.code, &f.message));
            let new: Vec<Finding> = again.findings.iter().filter(new).cloned().collect();
            self.header.extend(new);
            self.columns = again;
            self.below_header = 0;
            return true;
        }
        self.below_header == 1 && self.take_units(&text)
    }

    /// A row of units right under the header: every cell of a number column is blank or a unit of its kind.
    fn take_units(&mut self, text: &[String]) -> bool {
        let cell = |i: usize| text.get(i).map(|t| t.trim_matches(['[', ']', '(', ')'])).filter(|t| !t.is_empty());
        let mut values = self.columns.values.clone();
        values.extend(self.columns.unitless.iter().map(|(v, _)| *v).filter(|v| cell(v.index).is_some()));
        let mut any = false;
        for value in &mut values {
            let Some(unit) = cell(value.index) else { continue };
            let Ok(unit) = columns::unit_of(value.channel, unit) else { return false };
            value.unit = unit;
            any = true;
        }
        let Some((index, form)) = self.columns.time else { return false };
        let time = match form {
            TimeForm::Elapsed(_) => {
                cell(index).map_or(Some(form), |u| elapsed::form(Some(u)).ok().map(TimeForm::Elapsed))
            }
            TimeForm::Clock => Some(form),
        };
        let Some(time) = time.filter(|_| any) else { return false };
        self.columns.unitless.retain(|(v, _)| values.iter().all(|w| w.index != v.index));
        self.columns.assumed.retain(|a| cell(a.index).is_none());
        self.columns.values = values;
        self.columns.time = Some((index, time));
        true
    }
}

fn starts_with_digit(cell: &[u8]) -> bool {
    cell.trim_ascii().first().is_some_and(|b| b.is_ascii_digit() || matches!(b, b'-' | b'+' | b'.'))
}
