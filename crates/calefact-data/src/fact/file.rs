//! Facts about files as a whole: whether they can be read, and whether they hold text.

use super::WorkbookFailure;
use serde::Serialize;
use std::io::{Error, ErrorKind};

/// A fact about a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum File {
    /// The file cannot be read.
    Unreadable(ReadFailure),
    /// The file does not hold text.
    NotText {
        /// What the file was to hold.
        table: TableFile,
        /// The format it has instead, where its first bytes show it.
        format: Option<BinaryFormat>,
    },
    /// The encoding is stated nowhere and was guessed; the WHATWG name of the encoding.
    EncodingGuessed(&'static str),
    /// A quoted cell goes on over the end of its line.
    QuoteOpen {
        /// Whether no further quote closes the cell before the file ends.
        never_closed: bool,
    },
}

/// Why a file cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum ReadFailure {
    /// There is no such file.
    NotFound,
    /// The person may not read the file.
    PermissionDenied,
    /// The path leads to a folder.
    Folder,
    /// The path leads to a pipe or a device.
    NotAFile,
    /// The path, or a link on it, leads out of the folder of the dataset.
    Outside,
    /// The file is larger than any log can be.
    TooLarge,
    /// The file is a workbook whose sheet cannot be read.
    Workbook(WorkbookFailure),
    /// Another reason, in the words of the operating system.
    System(String),
}

impl From<Error> for ReadFailure {
    fn from(error: Error) -> Self {
        match error.kind() {
            ErrorKind::NotFound => Self::NotFound,
            ErrorKind::PermissionDenied => Self::PermissionDenied,
            _ => Self::System(error.to_string()),
        }
    }
}

/// A file that holds a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum TableFile {
    /// A log: its trials are left out if it cannot be read.
    Log,
    /// A register: nothing is read if it cannot be read.
    Register,
}

/// A format that is not text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum BinaryFormat {
    /// A zip archive; today's spreadsheet files are zip archives, too.
    Zip,
    /// A spreadsheet in the binary format of before 2007.
    OldSpreadsheet,
    /// A PDF document.
    Pdf,
    /// A gzip archive.
    Gzip,
}

impl File {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("file-unreadable", "a file cannot be read"),
        ("file-not-text", "a file that should hold a table does not hold text"),
        ("encoding-guessed", "a file is not UTF-8 and its encoding is stated nowhere"),
        ("quote-open", "a quoted cell of a table is not closed on its line"),
    ];

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Unreadable(_) => "file-unreadable",
            Self::NotText { .. } => "file-not-text",
            Self::EncodingGuessed(_) => "encoding-guessed",
            Self::QuoteOpen { .. } => "quote-open",
        }
    }
}
