//! Facts in finished words, until each has a type.

use crate::finding::{Finding, Severity, printable};
use serde::Serialize;

/// A fact in finished words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Text {
    /// Stable code in kebab case.
    pub code: &'static str,
    /// What is wrong and why.
    pub message: String,
    /// What the program did about it.
    pub action: Option<String>,
    /// What the person can do.
    pub hint: Option<String>,
}

/// A set of facts that holds some in words.
pub trait FromText: crate::finding::Fact + From<Text> + std::fmt::Debug {
    /// The words, if the fact is in words.
    fn text(&self) -> Option<&Text>;

    /// The words, to be changed.
    fn text_mut(&mut self) -> Option<&mut Text>;
}

impl<F: FromText> Finding<F> {
    /// A finding in words.
    pub fn in_words(severity: Severity, code: &'static str, message: impl Into<String>) -> Self {
        let text = Text { code, message: printable(message.into()), action: None, hint: None };
        Self::new(severity, text)
    }

    /// An error in words.
    pub fn error_text(code: &'static str, message: impl Into<String>) -> Self {
        Self::in_words(Severity::Error, code, message)
    }

    /// A warning in words.
    pub fn warning_text(code: &'static str, message: impl Into<String>) -> Self {
        Self::in_words(Severity::Warning, code, message)
    }

    /// A note in words.
    pub fn note_text(code: &'static str, message: impl Into<String>) -> Self {
        Self::in_words(Severity::Note, code, message)
    }

    /// Adds what the person can do.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        if let Some(text) = self.fact.text_mut() {
            text.hint = Some(printable(hint.into()));
        }
        self
    }

    /// Adds what the program did.
    #[must_use]
    pub fn action(mut self, action: impl Into<String>) -> Self {
        if let Some(text) = self.fact.text_mut() {
            text.action = Some(action.into());
        }
        self
    }
}
