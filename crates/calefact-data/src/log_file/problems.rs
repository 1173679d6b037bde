//! Findings of one trial, counted instead of repeated: a million bad cells are one finding.

use crate::Finding;
use crate::fact::Log;

/// Findings with how often each occurred.
#[derive(Debug, Clone, Default)]
pub(super) struct Problems {
    findings: Vec<Finding>,
}

impl Problems {
    /// Adds a fact at a line and field number; of facts with the same code and field the first is kept and the rest counted.
    pub(super) fn add(&mut self, fact: Log, line: u64, column: u64) {
        let code = fact.code();
        match self.findings.iter_mut().find(|f| f.code() == code && f.column == Some(column)) {
            Some(first) => first.repeat(line),
            None => self.findings.push(Finding::from(fact).at("", Some(line), Some(column))),
        }
    }

    /// All findings.
    pub(super) fn into_findings(self) -> Vec<Finding> {
        self.findings
    }
}
