//! What `check` says was understood: the columns of like logs together, and a line for each of the first trials.

use crate::messages;
use calefact_data::{ReadAs, ReadColumn, Readings, RegisterRow};
use calefact_report::words::Wording;
use calefact_report::words::understood::{columns_line, trial_line};
use std::path::PathBuf;
use std::sync::Arc;

/// Trials that are told of in a line each.
const TRIALS: usize = 12;
/// Groups of like logs that are.
const GROUPS: usize = 8;
/// Logs of a group that are named.
const NAMED: usize = 3;

/// Logs whose columns were read alike.
struct LikeLogs {
    columns: Arc<[ReadColumn]>,
    named: Vec<String>,
    more: usize,
}

/// What was understood so far.
pub(super) struct Understood<'n> {
    wording: Wording<'n>,
    groups: Vec<LikeLogs>,
    other_logs: usize,
    last_log: Option<PathBuf>,
    lines: Vec<String>,
    trials: usize,
}

impl<'n> Understood<'n> {
    /// Nothing so far.
    pub(super) const fn new(wording: Wording<'n>) -> Self {
        Self { wording, groups: Vec::new(), other_logs: 0, last_log: None, lines: Vec::new(), trials: 0 }
    }

    /// Adds a trial. They come log by log.
    pub(super) fn add(&mut self, row: &RegisterRow, readings: &Readings, read_as: &ReadAs) {
        self.trials += 1;
        if self.trials <= TRIALS {
            self.lines.push(trial_line(&self.wording, row, readings, read_as));
        }
        if self.last_log.as_ref() != Some(&row.log) {
            self.last_log = Some(row.log.clone());
            self.add_log(row.log.display().to_string(), &read_as.columns);
        }
    }

    fn add_log(&mut self, log: String, columns: &Arc<[ReadColumn]>) {
        match self.groups.iter().position(|group| group.columns == *columns) {
            Some(at) if self.groups[at].named.len() < NAMED => self.groups[at].named.push(log),
            Some(at) => self.groups[at].more += 1,
            None if self.groups.len() < GROUPS => {
                self.groups.push(LikeLogs { columns: columns.clone(), named: vec![log], more: 0 });
            }
            None => self.other_logs += 1,
        }
    }

    /// Says it.
    pub(super) fn tell(&self) {
        for LikeLogs { columns, named, more } in &self.groups {
            messages::say(&columns_line(&self.wording, named, *more, columns));
        }
        if self.other_logs > 0 {
            messages::say(&format!("... and {} more logs with other columns", self.other_logs));
        }
        self.lines.iter().for_each(|line| messages::say(line));
        if self.trials > TRIALS {
            messages::say(&format!("... and {} more trials", self.trials - TRIALS));
        }
        messages::say("");
    }
}
