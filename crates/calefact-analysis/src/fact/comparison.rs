//! Facts about comparisons as a whole and about the rig they rest on.

use super::confounded::ConfoundedPair;
use super::lack::Lack;
use crate::Quantity;
use calefact_data::TrialKind;
use serde::Serialize;
use std::collections::BTreeMap;

/// A fact about a comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ComparisonFact {
    /// No usable trial has a level of the factor.
    Empty {
        /// Factor to be compared.
        factor: String,
        /// Restriction of the comparison.
        only: BTreeMap<String, String>,
        /// Kind of trial compared.
        kind: TrialKind,
    },
    /// The main quantity could not be given for any trial.
    MainQuantityMissing {
        /// The quantity.
        quantity: Quantity,
        /// The commonest reason.
        lacks: Vec<Lack>,
        /// Trials with that reason.
        trials: usize,
        /// Whether another quantity takes its place.
        replaced: bool,
    },
    /// Two levels of the factor, or its trend, cannot be told apart from other columns.
    Confounded {
        /// Factor compared.
        factor: String,
        /// Restriction of the comparison.
        only: BTreeMap<String, String>,
        /// Kind of trial compared.
        kind: TrialKind,
        /// The first two such levels, with the columns that change together with them; none of a factor of numbers.
        pair: Option<ConfoundedPair>,
        /// All columns concerned.
        columns: Vec<String>,
    },
    /// The levels are too many to say of each pair how many more trials it needs.
    ManyLevels {
        /// Factor compared.
        factor: String,
        /// Restriction of the comparison.
        only: BTreeMap<String, String>,
        /// Levels.
        levels: usize,
        /// Levels up to which it is said.
        most: usize,
    },
    /// The levels are too many to compare all pairs.
    TooManyLevels {
        /// Factor compared.
        factor: String,
        /// Restriction of the comparison.
        only: BTreeMap<String, String>,
        /// Levels.
        levels: usize,
        /// Levels up to which all pairs are compared.
        most: usize,
    },
    /// One constant-loss model does not fit the reference-heater trials of a vessel.
    ConstantLossMisfit {
        /// Vessel.
        vessel: String,
        /// Heat capacity that the fit asks for, J/K.
        fitted_capacity: f64,
        /// Heat capacity of water and vessel, J/K.
        known_capacity: f64,
        /// Fitted air temperature, degC.
        air_degc: f64,
        /// Fitted loss coefficient, W/K.
        loss_coefficient: f64,
        /// Standard deviation of the residuals, W.
        residual_sd_w: f64,
    },
}

impl ComparisonFact {
    /// Codes of the facts, with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("empty-comparison", "no usable trial has a level of the factor to be compared"),
        ("main-quantity-missing", "the main quantity of a comparison could not be given for any trial"),
        ("factors-confounded", "levels of a factor cannot be told apart from another column"),
        ("many-levels", "a factor has more levels than are given a number of trials pair by pair"),
        ("too-many-levels", "a factor has more levels than are compared pair by pair"),
        ("constant-loss-misfit", "one constant-loss model does not fit the reference-heater trials of a vessel"),
    ];

    /// Stable code.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Empty { .. } => "empty-comparison",
            Self::MainQuantityMissing { .. } => "main-quantity-missing",
            Self::Confounded { .. } => "factors-confounded",
            Self::ManyLevels { .. } => "many-levels",
            Self::TooManyLevels { .. } => "too-many-levels",
            Self::ConstantLossMisfit { .. } => "constant-loss-misfit",
        }
    }
}
