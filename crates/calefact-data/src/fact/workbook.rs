//! Facts about workbooks and their sheets.

use serde::Serialize;

/// Why a sheet of a workbook cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum WorkbookFailure {
    /// The workbook asks for a password.
    Encrypted,
    /// The workbook is in a binary format, that of before 2007 among them.
    OldFormat,
    /// The file is no workbook in a format that is read.
    NotAWorkbook,
    /// The workbook breaks the rules of its format.
    Damaged,
    /// The workbook, or the sheet written as text, is larger than is read; the limit in MiB.
    TooLarge(u64),
    /// The sheet has more cells than are read; the limit.
    TooManyCells(u64),
    /// The workbook has no sheet of that name.
    SheetMissing {
        /// The name.
        sheet: String,
        /// The sheet with the nearest name.
        nearest: Option<String>,
        /// The first sheets.
        sheets: Vec<String>,
    },
    /// No sheet is named, and the workbook has several; the first ones.
    SheetNotNamed(Vec<String>),
    /// Several sheets have the name but for case and spaces.
    TwinSheets {
        /// The name.
        sheet: String,
        /// The sheets.
        twins: Vec<String>,
    },
    /// The file has a formula without its value; name of the first such cell.
    NotCalculated(String),
}

/// Something in a sheet that a person should know, though it is read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum SheetFact {
    /// Hidden rows, which are read like others; their number.
    HiddenRows(u64),
    /// A cell that holds the error of a formula, as the spreadsheet shows it.
    ErrorCell(String),
    /// A cell that spans several rows; how many.
    MergedRows(u64),
    /// The workbook has macros.
    Macros,
}

impl SheetFact {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("hidden-rows", "rows of a sheet are hidden"),
        ("cell-error", "a cell of a sheet shows an error, such as `#DIV/0!`"),
        ("merged-rows", "a cell of a sheet is merged over several rows"),
        ("workbook-macros", "a workbook has macros"),
    ];

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::HiddenRows(_) => "hidden-rows",
            Self::ErrorCell(_) => "cell-error",
            Self::MergedRows(_) => "merged-rows",
            Self::Macros => "workbook-macros",
        }
    }
}
