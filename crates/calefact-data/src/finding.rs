//! Findings: a typed fact that the reader or the reduction noticed, with its severity and place.
//!
//! A finding holds no sentence. The report crate turns its fact into words.

use serde::Serialize;
use std::path::PathBuf;

/// How bad a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// For information: something was done that the reader should know.
    Note,
    /// The result stands but deserves a look.
    Warning,
    /// This trial (or file) cannot be used as it is.
    Error,
}

/// A fact that a finding states.
pub trait Fact: Clone + PartialEq {
    /// Stable code in kebab case, such as `time-backwards`. Each kind of fact has one.
    fn code(&self) -> &'static str;
}

/// The same fact found again at other lines of the same file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Repeats {
    /// Further occurrences.
    pub count: u64,
    /// Line of the last one.
    pub last_line: u64,
}

/// A fact, how bad it is, and its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Finding<F> {
    /// The fact.
    pub fact: F,
    /// How bad it is.
    pub severity: Severity,
    /// Trial concerned, if one.
    pub trial: Option<String>,
    /// File concerned, as the user would type it.
    pub file: Option<PathBuf>,
    /// Line in that file, from 1.
    pub line: Option<u64>,
    /// Column in that file, from 1: a character column in TOML, a field number in CSV.
    pub column: Option<u64>,
    /// Source excerpt with a pointer line, for TOML files.
    pub excerpt: Option<String>,
    /// Further occurrences of the fact in the file.
    pub repeats: Option<Repeats>,
}

impl<F: Fact> Finding<F> {
    /// A finding without trial and place.
    pub fn new(severity: Severity, fact: impl Into<F>) -> Self {
        Self {
            fact: fact.into(),
            severity,
            trial: None,
            file: None,
            line: None,
            column: None,
            excerpt: None,
            repeats: None,
        }
    }

    /// An error.
    pub fn error(fact: impl Into<F>) -> Self {
        Self::new(Severity::Error, fact)
    }

    /// A warning.
    pub fn warning(fact: impl Into<F>) -> Self {
        Self::new(Severity::Warning, fact)
    }

    /// A note.
    pub fn note(fact: impl Into<F>) -> Self {
        Self::new(Severity::Note, fact)
    }

    /// Code of the fact.
    pub fn code(&self) -> &'static str {
        self.fact.code()
    }

    /// Names the trial.
    #[must_use]
    pub fn trial(mut self, id: impl Into<String>) -> Self {
        self.trial = Some(id.into());
        self
    }

    /// Names the place: file, and line and column where known.
    #[must_use]
    pub fn at(mut self, file: impl Into<PathBuf>, line: Option<u64>, column: Option<u64>) -> Self {
        self.file = Some(file.into());
        self.line = line;
        self.column = column;
        self
    }

    /// Counts the same fact at another line.
    pub(crate) fn repeat(&mut self, line: u64) {
        let count = self.repeats.map_or(1, |r| r.count + 1);
        self.repeats = Some(Repeats { count, last_line: line });
    }

    /// The same finding with its fact as one of a wider set.
    pub fn widen<G: From<F>>(self) -> Finding<G> {
        Finding {
            fact: self.fact.into(),
            severity: self.severity,
            trial: self.trial,
            file: self.file,
            line: self.line,
            column: self.column,
            excerpt: self.excerpt,
            repeats: self.repeats,
        }
    }
}
