//! Facts about the book of fuel use and the tables it is read from.

use serde::Serialize;

/// A fact about the book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BookFact {
    /// A folder without a table of this kind.
    NoTable,
    /// A table that the system does not give.
    Unreadable {
        /// Why, in the words of the system.
        reason: String,
    },
    /// A table that is larger than any book.
    TooLarge {
        /// Bytes that a table may have.
        most: u64,
    },
    /// A file that is no text.
    NotText,
    /// A table without some columns.
    NoColumns {
        /// Those columns.
        columns: Vec<&'static str>,
    },
    /// A table of another form than this one.
    OtherVersion {
        /// The version it names.
        found: String,
    },
    /// A row that cannot be read.
    BadRow {
        /// Column of the cell that is wrong; none where the row has another length.
        column: Option<&'static str>,
        /// Its fault.
        fault: CellFault,
    },
    /// Combinations whose burns are in the book already.
    CountedOnce {
        /// The rig.
        rig: String,
        /// Number of its combinations left out.
        combinations: usize,
    },
    /// Further burns of a rig that the book has already.
    SameRig {
        /// The rig.
        rig: String,
    },
    /// No burn gives a figure.
    NoBurns,
    /// No fuel has a price.
    NoPrice,
    /// Burns without a date.
    Undated {
        /// Those burns.
        undated: usize,
        /// All burns.
        burns: usize,
    },
}

/// Faults of a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CellFault {
    /// The row has more or fewer cells than the header.
    Length,
    /// A blank cell that must be filled.
    Blank,
    /// A text that a spreadsheet would run as a formula.
    Formula,
    /// A text with control characters, or longer than any name.
    Text,
    /// No number, or one that cannot be.
    Number,
    /// A word that the column does not have.
    Word,
    /// An interval that does not hold its value.
    Interval,
}

impl BookFact {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("book-table-refused", "the table of another book cannot be read"),
        ("book-row-refused", "a row of another book cannot be read"),
        ("book-counted-once", "burns of another book are in the book already"),
        ("book-same-rig", "another book has further burns of the same rig"),
        ("book-no-burns", "no burn gives a figure for the book"),
        ("book-no-price", "no fuel has a price, so the book has no costs"),
        ("book-undated", "burns without a date belong to no season"),
    ];

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoTable
            | Self::Unreadable { .. }
            | Self::TooLarge { .. }
            | Self::NotText
            | Self::NoColumns { .. }
            | Self::OtherVersion { .. } => "book-table-refused",
            Self::BadRow { .. } => "book-row-refused",
            Self::CountedOnce { .. } => "book-counted-once",
            Self::SameRig { .. } => "book-same-rig",
            Self::NoBurns => "book-no-burns",
            Self::NoPrice => "book-no-price",
            Self::Undated { .. } => "book-undated",
        }
    }
}
