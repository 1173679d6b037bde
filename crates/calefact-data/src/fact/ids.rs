//! The ids that a finding is about, the first of many.

use serde::Serialize;
use std::fmt;

/// Ids that a finding lists.
const LISTED: usize = 20;

/// The first of some ids, and how many there are.
#[derive(Clone, PartialEq, Eq, Default, Serialize)]
pub struct Ids {
    /// The first ones.
    pub first: Vec<String>,
    /// All of them.
    pub count: usize,
    /// Whether there may be more than were counted.
    pub is_least: bool,
}

impl Ids {
    /// How many are not among the first.
    pub fn more(&self) -> usize {
        self.count - self.first.len()
    }
}

impl<S: Into<String>> FromIterator<S> for Ids {
    fn from_iter<I: IntoIterator<Item = S>>(ids: I) -> Self {
        let mut all = Self::default();
        for id in ids {
            all.count += 1;
            if all.first.len() < LISTED {
                all.first.push(id.into());
            }
        }
        all
    }
}

impl fmt::Debug for Ids {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut list = f.debug_list();
        list.entries(&self.first);
        if self.more() > 0 {
            list.entry(&format_args!("and {} more", self.more()));
        }
        list.finish()
    }
}
