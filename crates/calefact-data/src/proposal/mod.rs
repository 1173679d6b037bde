//! A proposal for files that nobody has described yet: which column is what and why, which trials there are, and which
//! files could not be understood. Nothing is written here; words are in the report crate.
//!
//! Headers are looked at first, cells second; then the reader itself reads each log as proposed, so that what is told of it
//! is what a run will find.

mod clock;
mod facts;
mod head;
mod keywords;
mod log;
mod matching;
mod roles;
mod table;

pub use facts::{
    ColumnProposal, LeftOut, LogProposal, Proposal, Reason, Role, TableColumn, TableProposal, TrialProposal, UnitReason,
};

use crate::Channel;
use crate::fact::{ReadFailure, TableFile};
use crate::file;
use crate::text::decode;
use crate::text::header::same_name;
use crate::workbook::{SheetAddress, sheets};
use head::Head;
use log::Log;
use std::path::{Path, PathBuf};

/// Looks at files; of what they leave open, `us` chooses units and days as the United States write them.
pub fn propose(paths: &[PathBuf], us: bool) -> Proposal {
    let mut proposal = Proposal::default();
    for path in paths {
        if let Err(reason) = add(&mut proposal, path, us) {
            proposal.left_out.push((path.clone(), reason));
        }
    }
    matching::join(&mut proposal);
    proposal
}

fn add(proposal: &mut Proposal, path: &Path, us: bool) -> Result<(), LeftOut> {
    let unreadable = |failure| LeftOut::Finding(Box::new(file::unreadable(path, failure)));
    if let Some(workbook) = SheetAddress::parse(path) {
        for sheet in sheets(path).map_err(unreadable)? {
            let at = workbook.with_sheet(&sheet.name);
            let added = match &sheet.text {
                Ok(text) => add_table(proposal, &at, &sheet.name, (text.as_bytes(), text.as_bytes()), us),
                Err(failure) => {
                    let failure = ReadFailure::Workbook(failure.clone());
                    Err(LeftOut::Finding(Box::new(file::unreadable(&at, failure))))
                }
            };
            proposal.left_out.extend(added.err().map(|reason| (at, reason)));
        }
        return Ok(());
    }
    let bytes = file::read(path).map_err(unreadable)?;
    let not_text = |finding: Box<crate::Finding>| LeftOut::Finding(Box::new(finding.at(path, None, None)));
    let decoded = decode::decode(&bytes, None, TableFile::Log).map_err(not_text)?;
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    add_table(proposal, path, &name, (&bytes, &decoded.text), us)
}

/// Adds a table, of which its bytes and its text are given: a log, or the table of trials.
fn add_table(
    proposal: &mut Proposal,
    path: &Path,
    name: &str,
    (bytes, text): (&[u8], &[u8]),
    us: bool,
) -> Result<(), LeftOut> {
    let head = head::find(text).ok_or(LeftOut::NoHeader)?;
    let columns = roles::columns(&head, us);
    if let Some(table) = table::propose(path, &head, us).filter(|_| !is_surely_log(&columns)) {
        if proposal.table.is_some() {
            return Err(LeftOut::SecondTable);
        }
        proposal.table = Some(table);
        return Ok(());
    }
    check_log(&head, &columns)?;
    let clock = columns.iter().position(|c| c.role == Role::Clock);
    let clock = clock.map(|index| clock::form(&head.cells(index).collect::<Vec<_>>(), us));
    add_log(proposal, &Log { path, name, bytes, text, head: &head, columns: &columns, clock, us })
}

/// Adds a log whose columns go with those of the logs before it, and that the reader reads.
fn add_log(proposal: &mut Proposal, log: &Log<'_>) -> Result<(), LeftOut> {
    if let Some(column) = conflict(proposal, log.columns, log.clock.as_ref()) {
        return Err(LeftOut::OtherHeaders(column));
    }
    let trials = log.trials()?;
    let pattern = log.clock.as_ref().and_then(|form| form.pattern.clone());
    proposal.clock_format = pattern.or(proposal.clock_format.take());
    let trial = log.columns.iter().find(|c| c.mapped && c.role == Role::Trial).map(|c| c.header.clone());
    proposal.trial_column = trial.or(proposal.trial_column.take());
    for column in log.columns.iter().filter(|c| !c.header.is_empty()) {
        if proposal.columns.iter().all(|known| known.header != column.header) {
            proposal.columns.push(column.clone());
        }
    }
    proposal.logs.push(LogProposal { path: log.path.into(), trials });
    Ok(())
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

/// A column to which these headers and those of earlier files give different forms, which one `dataset.toml` cannot hold.
fn conflict(proposal: &Proposal, columns: &[ColumnProposal], clock: Option<&clock::Form>) -> Option<&'static str> {
    let mapped = |c: &&ColumnProposal| c.mapped;
    for column in columns.iter().filter(mapped) {
        let same = |k: &&ColumnProposal| k.role == column.role;
        let other = proposal.columns.iter().filter(mapped).find(same);
        if other.is_some_and(|k| !same_name(&k.header, &column.header) || k.unit != column.unit) {
            return column.role.column();
        }
    }
    let clocks = proposal.columns.iter().any(|c| c.role == Role::Clock);
    let differs = clock.is_some_and(|form| clocks && form.pattern != proposal.clock_format);
    differs.then_some("clock")
}

#[cfg(test)]
mod tests;
