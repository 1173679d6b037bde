//! From what a person writes to a unit.

use crate::{Kind, Unit};

/// Why a unit or a quantity could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum UnitError {
    /// No such unit.
    #[error("unknown unit `{text}` for {}", kind.words())]
    Unknown {
        /// As written.
        text: String,
        /// Kind wanted.
        kind: Kind,
        /// Nearest known spelling of that kind.
        nearest: Option<&'static str>,
    },
    /// A unit with more than one meaning, such as a bare `gal`.
    #[error("`{text}` is ambiguous: write {choices}")]
    Ambiguous {
        /// As written.
        text: String,
        /// What to write instead.
        choices: &'static str,
    },
    /// A unit of another kind.
    #[error("`{text}` is a unit of another kind ({}), but {} is wanted here", found.words(), kind.words())]
    WrongKind {
        /// As written.
        text: String,
        /// Its kind.
        found: Kind,
        /// Kind wanted.
        kind: Kind,
    },
    /// The number in front of the unit could not be read.
    #[error("`{text}` does not begin with a number")]
    NoNumber {
        /// As written.
        text: String,
    },
}

impl Unit {
    /// The unit a person wrote, for a quantity of this kind.
    pub fn parse(text: &str, kind: Kind) -> Result<Self, UnitError> {
        Err(UnitError::Unknown { text: text.into(), kind, nearest: None })
    }
}

/// A number and a unit, such as `"160 L"`, in SI.
pub fn parse_quantity(text: &str, kind: Kind) -> Result<f64, UnitError> {
    let _ = kind;
    Err(UnitError::NoNumber { text: text.into() })
}
