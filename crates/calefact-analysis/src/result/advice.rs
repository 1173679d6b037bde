//! Advice on what would narrow the intervals of a comparison.

use super::ErrorOrigin;
use crate::Quantity;
use calefact_data::TrialKind;
use serde::Serialize;
use std::collections::BTreeMap;

/// What would narrow the intervals of the main quantity of a comparison, or would not.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Advice {
    /// What would help.
    Narrow(Narrow),
    /// Instruments whose errors are too small to matter for the quantity.
    Negligible {
        /// Quantity concerned.
        quantity: Quantity,
        /// The instruments.
        instruments: Vec<ErrorOrigin>,
    },
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
    /// Share of the scatter between trials in the variance of the means; none where nothing was repeated.
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
    /// By which share half its error would narrow the intervals of the means.
    pub narrower: f64,
}
