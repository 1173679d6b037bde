//! Facts about files, datasets, registers and logs: one enum a family, no sentence in any of them.

mod file;
mod log;
mod text;

pub use file::{BinaryFormat, File, ReadFailure, TableFile};
pub use log::{AssumedUnit, Log};
pub use text::{FromText, Text};

use serde::Serialize;

/// A fact that reading a dataset may come upon.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Fact {
    /// A fact about a file as a whole.
    File(File),
    /// A fact about a log.
    Log(Log),
    /// A fact in finished words.
    Text(Text),
}

impl crate::finding::Fact for Fact {
    fn code(&self) -> &'static str {
        match self {
            Self::File(fact) => fact.code(),
            Self::Log(fact) => fact.code(),
            Self::Text(text) => text.code,
        }
    }
}

impl From<File> for Fact {
    fn from(fact: File) -> Self {
        Self::File(fact)
    }
}

impl From<Log> for Fact {
    fn from(fact: Log) -> Self {
        Self::Log(fact)
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
            _ => None,
        }
    }

    fn text_mut(&mut self) -> Option<&mut Text> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }
}
