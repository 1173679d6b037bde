//! What the check of a file and all cursors of it share: its place and the findings so far.

use super::place::Place;
use crate::{Fact, Finding};
use std::cell::RefCell;
use std::ops::Range;

/// A file being read.
pub(super) struct Context<'a> {
    place: Place<'a>,
    findings: RefCell<Vec<Finding>>,
}

impl<'a> Context<'a> {
    pub(super) fn new(place: Place<'a>) -> Self {
        Self { place, findings: RefCell::default() }
    }

    /// Adds a finding at a range of the text.
    pub(super) fn report(&self, span: Range<usize>, fact: impl Into<Fact>) {
        self.findings.borrow_mut().push(self.place.finding(fact, span));
    }

    /// All findings in the order of their places.
    pub(super) fn findings(self) -> Vec<Finding> {
        let mut findings = self.findings.into_inner();
        findings.sort_by_key(|f| (f.line, f.column));
        findings
    }
}
