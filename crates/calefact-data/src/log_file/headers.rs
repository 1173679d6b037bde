//! Headers inside a log: one that is repeated, a row of units below it, and the checks at the first reading below.

use super::columns::{self, TimeForm, ValueColumn, cell_unit};
use super::elapsed;
use super::reader::Reader;
use crate::Finding;
use crate::fact::Log;
use crate::text::cells::as_text;
use crate::text::number::Cell;

impl Reader<'_> {
    /// At the first reading below a header, columns still without a unit become findings, unless their first cell states one.
    pub(super) fn close_header(&mut self, time: &[u8], cells: &[&[u8]]) {
        self.take_cell_units(cells);
        let line = self.columns.line;
        self.assumptions.close(&mut self.columns, time);
        for (ValueColumn { index, channel, .. }, header) in std::mem::take(&mut self.columns.unitless) {
            let finding = Finding::from(Log::UnitMissing { header, channel });
            self.header.push(finding.at("", Some(line), Some(index as u64 + 1)));
        }
    }

    /// A cheap check first: the time cell does not begin with a digit, and the first column of numbers has no number.
    pub(super) fn may_be_header(&self, time: &[u8], cells: &[&[u8]]) -> bool {
        let number = |i: usize| cells.get(i).is_some_and(|c| matches!(self.style.read(c), Cell::Number(_)));
        !starts_with_digit(time) && !self.columns.values.first().is_some_and(|v| number(v.index))
    }

    pub(super) fn is_header_or_units(&mut self, line: u64, cells: &[&[u8]]) -> bool {
        let text: Vec<String> = cells.iter().map(|c| as_text(c)).collect();
        let mut again = columns::resolve(&text, line, self.settings);
        if let (Some((index, TimeForm::Open)), Some((_, form))) = (again.time, self.columns.time) {
            (again.time, again.clock) = (Some((index, form)), (form == TimeForm::Clock).then_some(index));
        }
        if again.is_complete() {
            let new = |f: &&Finding| self.header.iter().all(|h| h.fact != f.fact);
            let new: Vec<Finding> = again.findings.iter().filter(new).cloned().collect();
            self.header.extend(new);
            again.headers = text;
            self.columns = again;
            self.below_header = 0;
            return true;
        }
        self.below_header == 1 && self.take_units(&text)
    }

    /// Takes the units that cells of the first reading state, such as `56 F`, for columns without one.
    fn take_cell_units(&mut self, cells: &[&[u8]]) {
        let unit = |v: &ValueColumn| cell_unit(v.channel, cells.get(v.index)?);
        for value in &mut self.columns.values {
            let is_open = self.columns.assumed.iter().any(|a| a.index == value.index);
            if is_open && let Some(unit) = unit(value) {
                value.unit = unit;
                self.columns.assumed.retain(|a| a.index != value.index);
            }
        }
        for (mut value, header) in std::mem::take(&mut self.columns.unitless) {
            match unit(&value) {
                Some(unit) => {
                    value.unit = unit;
                    self.columns.values.push(value);
                }
                None => self.columns.unitless.push((value, header)),
            }
        }
    }

    /// A row of units right below the header: every cell of a number column is blank or a unit of its kind.
    fn take_units(&mut self, text: &[String]) -> bool {
        let cell = |i: usize| text.get(i).map(|t| t.trim_matches(['[', ']', '(', ')'])).filter(|t| !t.is_empty());
        let mut values = self.columns.values.clone();
        values.extend(self.columns.unitless.iter().map(|(v, _)| *v).filter(|v| cell(v.index).is_some()));
        let mut any = false;
        for value in &mut values {
            let Some(unit) = cell(value.index) else { continue };
            let Ok(unit) = columns::parse_unit(value.channel, unit) else { return false };
            value.unit = unit;
            any = true;
        }
        let Some((index, form)) = self.columns.time else { return false };
        let time = match form {
            TimeForm::Elapsed(_) => {
                cell(index).map_or(Some(form), |u| elapsed::form(Some(u)).ok().map(TimeForm::Elapsed))
            }
            TimeForm::Clock | TimeForm::Open => Some(form),
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
