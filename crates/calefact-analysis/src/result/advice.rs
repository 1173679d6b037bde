//! Advice on what would narrow the intervals of a comparison.

use super::ErrorOrigin;
use crate::Quantity;
use crate::fact::ConfoundedColumn;
use calefact_data::TrialKind;
use serde::Serialize;
use std::collections::BTreeMap;

/// What would narrow the intervals of the main quantity of a comparison, or would not.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Advice {
    /// What would help.
    Narrow(Narrow),
    /// Neither more trials of the same sort nor better instruments help: other columns change together with the factor.
    Cross(Cross),
    /// Instruments whose errors are too small to matter for the quantity.
    Negligible {
        /// Quantity concerned.
        quantity: Quantity,
        /// Whose interval they would not narrow.
        subject: Subject,
        /// The instruments.
        instruments: Vec<ErrorOrigin>,
    },
}

/// What intervals advice is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Subject {
    /// The difference of two levels.
    Difference,
    /// The differences of more than two levels.
    Differences,
    /// The trend along a factor of numbers.
    Trend,
    /// The means, where nothing is compared.
    Means,
}

/// Levels that must be tried with other levels of the columns that change together with them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cross {
    /// Factor compared.
    pub factor: String,
    /// Restriction of the comparison.
    pub only: BTreeMap<String, String>,
    /// Kind of trial compared.
    pub kind: TrialKind,
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// The columns.
    pub columns: Vec<ConfoundedColumn>,
}

/// What would narrow the intervals of the main quantity of a comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Narrow {
    /// Factor compared.
    pub factor: String,
    /// Restriction of the comparison.
    pub only: BTreeMap<String, String>,
    /// Kind of trial compared.
    pub kind: TrialKind,
    /// Main quantity.
    pub quantity: Quantity,
    /// Whose intervals.
    pub subject: Subject,
    /// Share of the scatter between trials in their variance; none where nothing was repeated.
    pub scatter: Option<f64>,
    /// How much more trials would help.
    pub repeats: RepeatBenefit,
    /// The largest shared error, where it matters.
    pub largest: Option<LargestSource>,
}

/// How much more trials would help.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum RepeatBenefit {
    /// Nothing was repeated, so the scatter between trials is unknown.
    Unknown,
    /// More trials are the only thing that helps.
    Only,
    /// More trials help most.
    Most,
    /// More trials help.
    Some,
    /// More trials would hardly help.
    Little,
}

/// The shared error with the largest share of the variance.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LargestSource {
    /// Where it comes from.
    pub origin: ErrorOrigin,
    /// Its share of the variance.
    pub share: f64,
    /// By which share half its error would narrow the intervals.
    pub narrower: f64,
}
