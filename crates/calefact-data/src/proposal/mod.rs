//! A proposal for files that nobody has described yet: which column is what and why, which trials there are, and which
//! files could not be understood. Nothing is written here; words are in the report crate.
//!
//! Headers are looked at first, cells second; then the reader itself reads each log as proposed, so that what is told of it
//! is what a run will find.

mod clock;
mod facts;
mod head;
mod joint;
mod keywords;
mod log;
mod matching;
mod roles;
mod table;

pub use facts::{
    ClockFormat, ColumnProposal, DateDoubt, LeftOut, LogProposal, Meaning, Proposal, Reason, Role, TableColumn,
    TableProposal, TrialProposal, UnitReason,
};

use crate::Channel;
use crate::fact::{ReadFailure, TableFile};
use crate::file;
use crate::text::date::DayOrder;
use crate::text::decode;
use crate::workbook::{DELIMITER, SheetAddress, sheets};
use clock::{Days, Habits};
use head::Head;
use joint::Joint;
use log::Log;
use std::path::{Path, PathBuf};

/// Looks at files; of what they leave open, `us` chooses units and days as the United States write them. The order of day and
/// month that one file shows holds for all.
pub fn propose(paths: &[PathBuf], us: bool) -> Proposal {
    let first = Draft::new(paths, Habits { us, order: None });
    let order = first.shown.filter(|_| first.has_doubt());
    let draft = if order.is_some() { Draft::new(paths, Habits { us, order }) } else { first };
    let mut proposal = draft.proposal;
    proposal.columns = draft.joint.into_columns();
    matching::join(&mut proposal);
    proposal
}

/// A proposal that is being made.
struct Draft {
    proposal: Proposal,
    joint: Joint,
    habits: Habits,
    /// Order of day and month that a file shows.
    shown: Option<DayOrder>,
}

impl Draft {
    fn new(paths: &[PathBuf], habits: Habits) -> Self {
        let mut draft = Self { proposal: Proposal::default(), joint: Joint::default(), habits, shown: None };
        for path in paths {
            if let Err(reason) = draft.add(path) {
                draft.proposal.left_out.push((path.clone(), reason));
            }
        }
        draft
    }

    /// Whether a day has two meanings, or clocks do not go together, which may have to do with it.
    fn has_doubt(&self) -> bool {
        let clock = self.proposal.clock_format.as_ref().is_some_and(|format| format.doubt.is_some());
        let left_out = self.proposal.left_out.iter().any(|(_, reason)| *reason == LeftOut::OtherClock);
        clock || left_out || !self.proposal.date_doubts.is_empty()
    }

    fn add(&mut self, path: &Path) -> Result<(), LeftOut> {
        let unreadable = |failure| LeftOut::Finding(Box::new(file::unreadable(path, failure)));
        if let Some(workbook) = SheetAddress::parse(path) {
            for sheet in sheets(path).map_err(unreadable)? {
                let at = workbook.with_sheet(&sheet.name);
                let added = match &sheet.text {
                    Ok(text) => self.add_table(&at, &sheet.name, (text.as_bytes(), text.as_bytes()), Some(DELIMITER)),
                    Err(failure) => {
                        let failure = ReadFailure::Workbook(failure.clone());
                        Err(LeftOut::Finding(Box::new(file::unreadable(&at, failure))))
                    }
                };
                self.proposal.left_out.extend(added.err().map(|reason| (at, reason)));
            }
            return Ok(());
        }
        let bytes = file::read(path).map_err(unreadable)?;
        let not_text = |finding: Box<crate::Finding>| LeftOut::Finding(Box::new(finding.at(path, None, None)));
        let decoded = decode::decode(&bytes, None, TableFile::Log).map_err(not_text)?;
        let name = path.file_stem().unwrap_or_default().to_string_lossy();
        self.add_table(path, &name, (&bytes, &decoded.text), None)
    }

    /// Adds a table, of which its bytes and its text are given, and the delimiter where it is known: a log, or the table of trials.
    fn add_table(
        &mut self,
        path: &Path,
        name: &str,
        (bytes, text): (&[u8], &[u8]),
        delimiter: Option<u8>,
    ) -> Result<(), LeftOut> {
        let head = head::find(text, delimiter).ok_or(LeftOut::NoHeader)?;
        let columns = roles::columns(&head, self.habits.us);
        let table = table::propose(path, &head, self.habits).filter(|_| !is_surely_log(&columns));
        if let Some((table, days)) = table {
            if self.proposal.table.is_some() {
                return Err(LeftOut::SecondTable);
            }
            self.proposal.table = Some(table);
            self.take_days(path, days);
            return Ok(());
        }
        check_log(&head, &columns)?;
        let clock = columns.iter().position(|c| c.role == Role::Clock);
        let clock = clock.map(|index| clock::form(&head.cells(index).collect::<Vec<_>>(), self.habits));
        let habits = self.habits;
        self.add_log(&Log { path, name, bytes, text, head: &head, columns: &columns, clock, habits })
    }

    /// Adds a log whose columns go with those of the logs before it, and that the reader reads.
    fn add_log(&mut self, log: &Log<'_>) -> Result<(), LeftOut> {
        if let Some(form) = &log.clock {
            self.shown = self.shown.or(form.days.shown);
        }
        let conflict = self.joint.conflict(log.columns, log.clock.as_ref());
        if let Some(reason) = conflict {
            return Err(reason);
        }
        let trials = log.trials()?;
        self.joint.add(log.columns, log.clock.as_ref());
        if let Some(days) = log.days() {
            self.take_days(log.path, days);
        }
        if let Some(form) = log.clock.as_ref().filter(|form| form.needs_pattern) {
            let before = self.proposal.clock_format.take();
            let format = |pattern: &String| ClockFormat { pattern: pattern.clone(), doubt: form.days.doubt.clone() };
            self.proposal.clock_format = before.or_else(|| form.pattern.as_ref().map(format));
        }
        self.proposal.logs.push(LogProposal { path: log.path.into(), trials });
        Ok(())
    }

    fn take_days(&mut self, path: &Path, days: Days) {
        self.shown = self.shown.or(days.shown);
        self.proposal.date_doubts.extend(days.doubt.map(|doubt| (path.to_path_buf(), doubt)));
    }
}

/// Whether columns are those of a log and of no table of trials: a time, and a tank whose header speaks of temperature.
fn is_surely_log(columns: &[ColumnProposal]) -> bool {
    let is_time = columns.iter().any(|c| matches!(c.role, Role::Elapsed | Role::Clock));
    let is_temperature =
        |c: &ColumnProposal| c.unit_reason == UnitReason::Stated || c.header.to_lowercase().contains("temp");
    let tank = columns.iter().find(|c| c.role == Role::Channel(Channel::Tank));
    is_time && tank.is_some_and(|c| c.reason == Reason::Name || is_temperature(c))
}

fn check_log(head: &Head, columns: &[ColumnProposal]) -> Result<(), LeftOut> {
    let headers = || head.headers.iter().filter(|h| !h.is_empty()).take(20).cloned().collect();
    if !columns.iter().any(|c| matches!(c.role, Role::Elapsed | Role::Clock)) {
        return Err(LeftOut::NoTime(headers()));
    }
    if !columns.iter().any(|c| c.role == Role::Channel(Channel::Tank)) {
        return Err(LeftOut::NoTank(headers()));
    }
    Ok(())
}

#[cfg(test)]
mod tests;
