//! The sources of error that trials share, numbered.

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

    /// Shared parts of the mean of some values.
    pub fn mean_parts(&self, values: &[&Traced]) -> Vec<(Source, f64)> {
        let weight = 1.0 / values.len() as f64;
        let mut sums = vec![0.0; self.names.len()];
        for (source, part) in values.iter().flat_map(|v| self.parts(v)) {
            sums[source] += weight * part;
        }
        named(&self.names, sums)
    }
}

/// Sums by number as parts by source, without those that are zero.
pub(super) fn named(names: &[Source], sums: Vec<f64>) -> Vec<(Source, f64)> {
    names.iter().cloned().zip(sums).filter(|(_, part)| *part != 0.0).collect()
}
