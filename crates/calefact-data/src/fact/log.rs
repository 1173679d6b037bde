//! Facts about logs: files, headers, units, times and cells.

use super::ReadFailure;
use serde::Serialize;
use std::path::PathBuf;

/// A fact about a log.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Log {
    /// The log that a register row names cannot be read.
    Unreadable {
        /// The log.
        log: PathBuf,
        /// Why.
        failure: ReadFailure,
    },
    /// No register row names a file that lies among the logs.
    Unregistered,
}

impl Log {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("log-unreadable", "the log that a register row names cannot be read"),
        ("log-unregistered", "no register row names a file that lies among the logs"),
    ];

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Unreadable { .. } => "log-unreadable",
            Self::Unregistered => "log-unregistered",
        }
    }
}
