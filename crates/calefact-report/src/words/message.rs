//! A finding in words, in three parts.

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Message {
    /// The fault and its cause.
    pub text: String,
    /// What the program did about it.
    pub action: Option<String>,
    /// What the person can do.
    pub hint: Option<String>,
}

impl Message {
    /// A message without action and hint.
    pub(super) fn new(text: impl Into<String>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }

    /// Adds what the program did.
    pub(super) fn action(self, action: impl Into<String>) -> Self {
        Self { action: Some(action.into()), ..self }
    }

    /// Adds what the person can do.
    pub(super) fn hint(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }
}
