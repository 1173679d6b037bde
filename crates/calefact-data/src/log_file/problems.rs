//! Findings of one trial, counted instead of repeated: a million bad cells are one finding.

use crate::fact::FromText;
use crate::{Finding, Repeats};

/// Findings with how often each occurred.
#[derive(Debug, Clone, Default)]
pub(super) struct Problems {
    found: Vec<(Finding, u64, u64)>,
}

impl Problems {
    /// Notes a problem at a line and field number; the finding is made for the first of its code and field only.
    pub(super) fn add(&mut self, code: &'static str, line: u64, column: u64, make: impl FnOnce() -> Finding) {
        let same = |f: &&mut (Finding, u64, u64)| f.0.code() == code && f.0.column == Some(column);
        if let Some((_, count, last)) = self.found.iter_mut().find(same) {
            *count += 1;
            *last = line;
        } else {
            let mut finding = make();
            rename(&mut finding, code);
            self.found.push((finding.at("", Some(line), Some(column)), 1, line));
        }
    }

    /// All findings; repeated ones say how often and where last.
    pub(super) fn into_findings(self) -> Vec<Finding> {
        let one = |(mut finding, count, last): (Finding, u64, u64)| {
            if count > 1 {
                finding.repeats = Some(Repeats { count: count - 1, last_line: last });
            }
            finding
        };
        self.found.into_iter().map(one).collect()
    }
}

fn rename(finding: &mut Finding, code: &'static str) {
    if let Some(text) = finding.fact.text_mut() {
        text.code = code;
    }
}
