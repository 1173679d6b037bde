//! What can be wrong with a unit or a quantity as written.

use crate::Kind;
use serde::Serialize;

/// Why a unit or a quantity could not be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum UnitError {
    /// No such unit.
    Unknown {
        /// As written.
        text: String,
        /// Kind wanted.
        kind: Kind,
        /// Nearest known spelling of that kind.
        nearest: Option<&'static str>,
    },
    /// A unit with more than one meaning, such as a bare `gal`.
    Ambiguous {
        /// As written.
        text: String,
        /// What to write instead.
        choices: &'static str,
    },
    /// A unit of another kind.
    WrongKind {
        /// As written.
        text: String,
        /// Its kind.
        found: Kind,
        /// Kind wanted.
        kind: Kind,
    },
    /// The number in front of the unit could not be read.
    NoNumber {
        /// As written.
        text: String,
    },
    /// Parts that do not run from large to small, each less than one of the unit before, as in `9 lb 6 oz`.
    Parts {
        /// As written.
        text: String,
    },
    /// The number holds a comma, which means one thing in one country and another in the next.
    Comma {
        /// As written.
        text: String,
    },
}
