//! The sources of error that trials share, numbered.

use calefact_stats::{Source, SourceBook};
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
}
