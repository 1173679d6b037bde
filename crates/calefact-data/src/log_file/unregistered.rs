//! Trials of a log that no register row names: each once, in the order of the file.

use crate::fact::Ids;
use crate::text::cells::excerpt;
use std::collections::HashSet;

/// Ids that are told apart; those beyond are not counted.
const MOST: usize = 100_000;

/// The ids met so far.
#[derive(Debug, Default)]
pub(super) struct Unregistered {
    met: HashSet<Vec<u8>>,
    /// The ids as a finding shows them.
    order: Vec<String>,
    /// Line of the first.
    line: u64,
}

impl Unregistered {
    /// Adds the id of a row.
    pub(super) fn add(&mut self, id: &[u8], line: u64) {
        if self.met.len() < MOST && !self.met.contains(id) {
            if self.met.is_empty() {
                self.line = line;
            }
            self.met.insert(id.to_vec());
            self.order.push(excerpt(id));
        }
    }

    /// The ids, and the line of the first.
    pub(super) fn ids(self) -> Option<(Ids, u64)> {
        (!self.order.is_empty()).then(|| (self.order.into_iter().collect(), self.line))
    }
}
