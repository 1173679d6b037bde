//! Facts about a TOML file: its text, its keys, and values that do not fit their key.

use crate::toml_source::{Form, Range, TextForm};
use calefact_units::{Kind, UnitError};
use serde::Serialize;

/// A fact about a TOML file. Keys are given with their path, as TOML spells it: `fuels.spruce.price`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Toml {
    /// The text is not TOML.
    Syntax {
        /// What the parser reports.
        problem: String,
    },
    /// The text is not UTF-8.
    NotUtf8 {
        /// The first byte that is not.
        byte: u8,
    },
    /// A required key is missing.
    MissingKey {
        /// Path of its table; empty for the file itself.
        table: String,
        /// The key.
        key: &'static str,
    },
    /// A key that its table does not have.
    UnknownKey {
        /// Path of its table; empty for the file itself.
        table: String,
        /// The key as written.
        key: String,
        /// Keys of the table.
        known: Vec<&'static str>,
    },
    /// A value that does not fit its key.
    Value {
        /// Path of the key.
        key: String,
        /// Why it does not fit.
        misfit: Misfit,
    },
    /// A pipeline asks for Parquet of a build that writes none.
    NoParquet,
    /// Of two temperatures that must rise, the second is not above the first.
    NotRising {
        /// Path of their table.
        table: String,
        /// Key of the first.
        low: &'static str,
        /// Key of the second.
        high: &'static str,
    },
}

/// Why a value does not fit its key.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Misfit {
    /// Another type of value.
    Type {
        /// The types that fit.
        expected: Vec<Form>,
        /// The type found.
        found: Form,
    },
    /// Not one of the words.
    Word {
        /// As written.
        word: String,
        /// The words that fit.
        known: Vec<&'static str>,
    },
    /// A text not written in its form.
    Text {
        /// As written.
        text: String,
        /// The form.
        form: TextForm,
    },
    /// A quantity that cannot be read.
    Unit {
        /// As written.
        written: String,
        /// The reason.
        error: UnitError,
    },
    /// A number outside its range.
    Range {
        /// The range, SI.
        range: Range,
        /// Kind of the quantity; `None` for a plain number.
        kind: Option<Kind>,
    },
    /// No finite number: infinite, or not a number.
    NotFinite,
    /// An uncertainty below zero.
    NegativeUncertainty,
    /// A whole number of more than 63 bits.
    TooLarge,
    /// A list without an item.
    Empty {
        /// Code of the finding.
        code: &'static str,
    },
}

impl Toml {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("toml-syntax", "the file is not valid TOML"),
        ("not-utf8", "the file is not UTF-8 text"),
        ("missing-key", "a key is missing"),
        ("unknown-key", "the table has no such key"),
        ("wrong-type", "the value has another type than its key takes"),
        ("unknown-word", "a value is not one of the words it can be"),
        ("bad-value", "a value of a TOML file cannot be true, contradicts another, or is not in its form"),
        ("bad-name", "the name cannot be the name of a folder"),
        ("no-dataset", "the pipeline file names no dataset"),
        ("no-author", "the pipeline file names no author of its publication"),
        ("no-header", "a list of headers of a column is empty"),
        ("no-format", "the pipeline file names no table format"),
        ("no-parquet", "the pipeline file asks for Parquet, which this build does not write"),
        ("missing-unit", "a quantity has no unit and cannot do without"),
        ("unknown-unit", "a unit is not known"),
        ("ambiguous-unit", "a unit has more than one meaning"),
        ("wrong-kind-of-unit", "a unit measures another kind of quantity"),
        ("not-a-quantity", "a text is not a number with a unit"),
    ];

    /// Code of the fact.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Syntax { .. } => "toml-syntax",
            Self::NotUtf8 { .. } => "not-utf8",
            Self::MissingKey { .. } => "missing-key",
            Self::UnknownKey { .. } => "unknown-key",
            Self::NoParquet => "no-parquet",
            Self::NotRising { .. } => "bad-value",
            Self::Value { misfit, .. } => misfit.code(),
        }
    }
}

impl Misfit {
    fn code(&self) -> &'static str {
        match self {
            Self::Type { .. } => "wrong-type",
            Self::Word { .. } | Self::Text { form: TextForm::Encoding | TextForm::TimeZone, .. } => "unknown-word",
            Self::Text { form: TextForm::FolderName, .. } => "bad-name",
            Self::Unit { error, .. } => crate::text::units::code(error),
            Self::Empty { code } => code,
            Self::Text { .. } | Self::NotFinite | Self::Range { .. } | Self::NegativeUncertainty | Self::TooLarge => {
                "bad-value"
            }
        }
    }
}
