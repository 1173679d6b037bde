//! Facts about a dataset: entries of `dataset.toml` that are incomplete or do not go together.

use crate::ApparatusKind;
use calefact_units::{Kind, UnitError};
use serde::Serialize;

/// A fact about a dataset. Tables are given with their path, as TOML spells it: `vessels.drum`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum DatasetFact {
    /// A vessel states its heat capacity and also its mass and material.
    HeatCapacityTwice {
        /// The vessel's table.
        table: String,
    },
    /// A vessel states its mass but no material.
    MassWithoutMaterial {
        /// The vessel's table.
        table: String,
    },
    /// A range of `assume` that is not a lower and an upper end.
    AssumedRange,
    /// A fuel states a price without its currency.
    NoCurrency {
        /// The fuel's table.
        table: String,
    },
    /// Mass fractions of a fuel that do not add up to one.
    Composition {
        /// The composition's table.
        table: String,
        /// Their sum.
        sum: f64,
    },
    /// An instrument that reads nothing.
    ReadsNothing {
        /// The instrument's table.
        table: String,
    },
    /// An instrument that reads columns of different kinds.
    MixedKinds {
        /// The instrument's table.
        table: String,
        /// The columns.
        columns: Vec<String>,
    },
    /// A tolerance that cannot be read.
    Tolerance {
        /// As written.
        written: String,
        /// The reason.
        problem: ToleranceProblem,
    },
    /// A resolution that cannot be read.
    Resolution {
        /// As written.
        written: String,
        /// The reason.
        error: UnitError,
    },
    /// Two columns with the same header.
    SharedHeader {
        /// The column whose header is not used.
        column: String,
        /// The header.
        header: String,
        /// The column that has it.
        first: String,
    },
    /// A column that two instruments read.
    ColumnReadTwice {
        /// The column.
        column: String,
        /// Id of the first instrument.
        first: String,
        /// Id of the second one.
        second: String,
    },
    /// A default of the register that names an entry that is not defined.
    UnknownDefault {
        /// The column.
        column: &'static str,
        /// Kind of the entry.
        kind: ApparatusKind,
        /// The id.
        id: String,
        /// Ids of that kind that are defined.
        known: Vec<String>,
    },
    /// A column read by an instrument that is not defined.
    UnknownInstrument {
        /// The id.
        id: String,
        /// Ids that are defined.
        known: Vec<String>,
    },
}

/// Why a tolerance cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ToleranceProblem {
    /// A class that is not known.
    UnknownClass {
        /// Classes that are known.
        known: Vec<&'static str>,
    },
    /// A class of thermometers for a column that holds no temperature.
    NotTemperature {
        /// Kind of the column.
        kind: Kind,
    },
    /// A width that cannot be read.
    Width(UnitError),
    /// A width below zero.
    Negative,
}

impl DatasetFact {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("missing-key", "a key is missing"),
        ("bad-value", "a value of a TOML file cannot be true, contradicts another, or is not in its form"),
        ("bad-tolerance", "the tolerance of an instrument cannot be read"),
        ("duplicate-column", "two columns stand for the same quantity"),
        ("unknown-id", "dataset.toml does not define an id"),
    ];

    /// Code of the fact.
    pub fn code(&self) -> &'static str {
        match self {
            Self::MassWithoutMaterial { .. } | Self::NoCurrency { .. } | Self::ReadsNothing { .. } => "missing-key",
            Self::HeatCapacityTwice { .. }
            | Self::Composition { .. }
            | Self::MixedKinds { .. }
            | Self::AssumedRange => "bad-value",
            Self::Tolerance { .. } => "bad-tolerance",
            Self::Resolution { error, .. } => crate::text::units::code(error),
            Self::SharedHeader { .. } | Self::ColumnReadTwice { .. } => "duplicate-column",
            Self::UnknownInstrument { .. } | Self::UnknownDefault { .. } => "unknown-id",
        }
    }
}
