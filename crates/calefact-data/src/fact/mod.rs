//! Facts about files, datasets, registers and logs: one enum a family, no sentence in any of them.

mod text;

pub use text::{FromText, Text};

use serde::Serialize;

/// A fact that reading a dataset may come upon.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Fact {
    /// A fact in finished words.
    Text(Text),
}

impl crate::finding::Fact for Fact {
    fn code(&self) -> &'static str {
        match self {
            Self::Text(text) => text.code,
        }
    }
}

impl From<Text> for Fact {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

impl FromText for Fact {
    fn text(&self) -> Option<&Text> {
        match self {
            Self::Text(text) => Some(text),
        }
    }

    fn text_mut(&mut self) -> Option<&mut Text> {
        match self {
            Self::Text(text) => Some(text),
        }
    }
}
