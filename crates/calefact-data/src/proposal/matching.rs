//! Which row of a table of trials tells of which log: by id, else by the number in it, else by the day.

use super::facts::{Proposal, TrialProposal};
use crate::text::header::same_name;
use std::collections::{BTreeMap, BTreeSet};

/// Gives every trial its row, takes over the row's id, and makes all ids different.
pub(super) fn join(proposal: &mut Proposal) {
    let rows = proposal.table.as_ref().map(|table| table.rows.clone()).unwrap_or_default();
    let trials: Vec<&mut TrialProposal> = proposal.logs.iter_mut().flat_map(|log| &mut log.trials).collect();
    let mut used = BTreeSet::new();
    let mut ids = BTreeSet::new();
    for trial in trials {
        trial.row = row_of(trial, &rows).filter(|row| used.insert(*row));
        if let Some(id) = trial.row.and_then(|row| rows[row].get("trial")) {
            trial.trial.clone_from(id);
        }
        let day = trial.row.and_then(|row| rows[row].get("date").cloned());
        trial.date = trial.date.take().or(day);
        let stem = trial.trial.clone();
        let mut number = 1;
        while !ids.insert(trial.trial.clone()) {
            number += 1;
            trial.trial = format!("{stem}-{number}");
        }
    }
}

fn row_of(trial: &TrialProposal, rows: &[BTreeMap<String, String>]) -> Option<usize> {
    let id = |row: &BTreeMap<String, String>| row.get("trial").cloned().unwrap_or_default();
    only(rows, |row| same_name(&id(row), &trial.trial))
        .or_else(|| only(rows, |row| !digits(&trial.trial).is_empty() && digits(&id(row)) == digits(&trial.trial)))
        .or_else(|| only(rows, |row| trial.date.is_some() && row.get("date") == trial.date.as_ref()))
}

/// The only row that fits.
fn only(rows: &[BTreeMap<String, String>], fits: impl Fn(&BTreeMap<String, String>) -> bool) -> Option<usize> {
    let mut found = rows.iter().enumerate().filter(|(_, row)| fits(row)).map(|(index, _)| index);
    found.next().filter(|_| found.next().is_none())
}

/// The digits of an id without zeros before them: `Burn 03` has 3.
fn digits(id: &str) -> String {
    let digits: String = id.chars().filter(char::is_ascii_digit).collect();
    digits.trim_start_matches('0').to_owned()
}
