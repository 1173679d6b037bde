//! Trials of a log that no register row names: each once, in the order of the file.

use crate::fact::Ids;
use crate::text::cells::excerpt;
use std::collections::HashSet;

/// Ids that are told apart; of those beyond it is not known which are new.
const MOST: usize = 1_000_000;

/// The ids met so far.
#[derive(Debug, Default)]
pub(super) struct Unregistered {
    met: HashSet<Vec<u8>>,
    /// The ids as a finding shows them.
    order: Vec<String>,
    /// Whether another one was met that is not among them.
    is_full: bool,
    /// Line of the first.
    line: u64,
}

impl Unregistered {
    /// Adds the id of a row.
    pub(super) fn add(&mut self, id: &[u8], line: u64) {
        if self.met.contains(id) {
            return;
        }
        self.is_full = self.met.len() == MOST;
        if !self.is_full {
            if self.met.is_empty() {
                self.line = line;
            }
            self.met.insert(id.to_vec());
            self.order.push(excerpt(id));
        }
    }

    /// The ids, and the line of the first.
    pub(super) fn ids(self) -> Option<(Ids, u64)> {
        let ids = Ids { is_least: self.is_full, ..self.order.into_iter().collect() };
        (ids.count > 0).then_some((ids, self.line))
    }
}
