//! The sources of error that trials share, numbered.

use calefact_stats::group::GroupMean;
use calefact_stats::{Source, SourceBook, Traced};
use rustc_hash::FxHashMap;
use std::sync::Arc;

/// Shared sources in the order of their names, with what is known of each. Every question of an analysis asks for the same
/// ones, part by part, so a source is found by its hash.
#[derive(Debug, Clone, Default)]
pub struct SharedSources {
    book: SourceBook,
    names: Arc<[Source]>,
    numbers: FxHashMap<Source, usize>,
}

impl SharedSources {
    /// Those of a book that are shared.
    pub fn of(book: &SourceBook) -> Self {
        let book: SourceBook = book.iter().filter(|(_, i)| i.shared).map(|(s, i)| (s.clone(), i.clone())).collect();
        let names: Arc<[Source]> = book.keys().cloned().collect();
        let numbers = names.iter().cloned().zip(0..).collect();
        Self { book, names, numbers }
    }

    /// What is known of them.
    pub fn book(&self) -> &SourceBook {
        &self.book
    }

    /// All of them, by number.
    pub fn names(&self) -> Arc<[Source]> {
        self.names.clone()
    }

    /// Number of a source; none where trials do not share it.
    pub fn number(&self, source: &Source) -> Option<usize> {
        self.numbers.get(source).copied()
    }

    /// Numbers and parts of the shared sources of a value.
    pub fn parts<'v>(&'v self, value: &'v Traced) -> impl Iterator<Item = (usize, f64)> + 'v {
        value.parts.iter().filter_map(|(source, part)| Some((self.number(source)?, *part)))
    }

    /// Mean of a group with the parts its trials share, `shared`, averaged; a trial alone keeps all its parts, and its `own`
    /// sources are known too.
    pub(super) fn mean(
        &self,
        values: &[&Traced],
        shared: impl FnOnce() -> Vec<(Source, f64)>,
        own: &SourceBook,
        scatter: Source,
    ) -> Option<GroupMean> {
        if let [value] = values {
            return Some(GroupMean::single(value, |s| self.book.get(s).or_else(|| own.get(s))));
        }
        let bare: Vec<f64> = values.iter().map(|v| v.value).collect();
        GroupMean::repeated(&bare, shared(), &self.book, scatter)
    }

    /// Shared parts of the mean of some values.
    pub fn mean_parts(&self, values: &[&Traced]) -> Vec<(Source, f64)> {
        let weight = 1.0 / values.len() as f64;
        summed(&self.names, values.iter().flat_map(|v| self.parts(v)).map(|(source, part)| (source, weight * part)))
    }
}

/// Sums of numbered parts, source by source, without those that are zero.
pub(super) fn summed(names: &[Source], parts: impl Iterator<Item = (usize, f64)>) -> Vec<(Source, f64)> {
    let mut sums = vec![0.0; names.len()];
    for (source, part) in parts {
        sums[source] += part;
    }
    names.iter().cloned().zip(sums).filter(|(_, part)| *part != 0.0).collect()
}
