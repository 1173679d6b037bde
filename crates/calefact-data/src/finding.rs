//! Findings: what the reader or the reduction noticed, in words a person can act on.

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

/// One thing noticed, where, why it matters and what to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// Stable code in kebab case, such as `time-backwards`.
    pub code: &'static str,
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
    /// What is wrong and why, one sentence.
    pub message: String,
    /// What the program did about it: "trial left out", "reading flagged".
    pub action: Option<String>,
    /// What the person can do.
    pub hint: Option<String>,
    /// Source excerpt with a pointer line, for TOML files.
    pub excerpt: Option<String>,
}

impl Finding {
    /// A finding with a code, a severity and a message; the rest is added with the `at`, `hint` and `action` methods.
    pub fn new(severity: Severity, code: &'static str, message: impl Into<String>) -> Self {
        Self {
            code,
            severity,
            trial: None,
            file: None,
            line: None,
            column: None,
            message: printable(message.into()),
            action: None,
            hint: None,
            excerpt: None,
        }
    }

    /// An error.
    pub fn error(code: &'static str, message: impl Into<String>) -> Self {
        Self::new(Severity::Error, code, message)
    }

    /// A warning.
    pub fn warning(code: &'static str, message: impl Into<String>) -> Self {
        Self::new(Severity::Warning, code, message)
    }

    /// A note.
    pub fn note(code: &'static str, message: impl Into<String>) -> Self {
        Self::new(Severity::Note, code, message)
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

    /// Adds what the person can do.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(printable(hint.into()));
        self
    }

    /// Adds what the program did.
    #[must_use]
    pub fn action(mut self, action: impl Into<String>) -> Self {
        self.action = Some(action.into());
        self
    }
}

/// Text that may quote a file, with its control characters made visible: a terminal must not obey a log.
pub(crate) fn printable(text: String) -> String {
    let is_control = |c: char| c.is_control() && c != '\n';
    if text.contains(is_control) { text.replace(is_control, "\u{fffd}") } else { text }
}
