//! What comparing trials comes to: groups, contrasts, trends, budget.

use super::GroupBalance;
use crate::Quantity;
use calefact_stats::{Estimate, Interval, UncertainValue};
use serde::Serialize;
use std::sync::Arc;

/// One quantity of one group of trials.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupResult {
    /// Factor and level, one pair for a comparison over one factor, more for cells.
    pub levels: Vec<(String, String)>,
    /// Which quantity.
    pub quantity: Quantity,
    /// Trials in the group that have the quantity, in register order.
    pub trials: Arc<[Arc<str>]>,
    /// Mean with interval: scatter and shared instrument errors.
    pub mean: Estimate,
    /// The mean with its parts by source.
    #[serde(skip)]
    pub traced: UncertainValue,
    /// Standard deviation between trials; none for a single trial.
    pub between_sd: Option<f64>,
    /// Interval of that standard deviation, where the method gives one.
    pub between_sd_interval: Option<Interval>,
    /// Interval for the next burn; none for a single trial.
    pub predict: Option<Interval>,
}

/// Kind of contrast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum ContrastKind {
    /// a - b.
    Difference,
    /// a / b.
    Ratio,
}

/// What can be said of a contrast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum VerdictKind {
    /// a is above b beyond doubt at the level asked.
    Above,
    /// a is below b.
    Below,
    /// The two do not differ by more than the stated margin.
    Equivalent,
    /// The burns made do not settle it.
    NoConclusion,
}

/// A comparison of two levels of a factor in one quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Contrast {
    /// Which quantity.
    pub quantity: Quantity,
    /// Factor compared.
    pub factor: String,
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// Trials behind each level.
    pub n: (usize, usize),
    /// Difference or ratio.
    pub kind: ContrastKind,
    /// Value with its (simultaneous, where the method says so) interval.
    pub estimate: Estimate,
    /// p-value of no difference, unadjusted.
    pub p_value: f64,
    /// p-value adjusted for the number of contrasts in the family.
    pub p_adjusted: f64,
    /// Name of the adjustment.
    pub adjustment: &'static str,
    /// What can be said.
    pub verdict: VerdictKind,
    /// The same in one sentence.
    pub sentence: String,
    /// Further trials per group that would settle it, if that can be told.
    pub more_trials: Option<u32>,
}

/// Slope of a quantity along a number: a factor whose levels are numbers, or a covariate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trend {
    /// Which quantity.
    pub quantity: Quantity,
    /// The column or condition it follows.
    pub factor: String,
    /// What one step of it is: "per unit of damper", "per K of start temperature".
    pub per: String,
    /// Trials behind it.
    pub n: usize,
    /// Slope with interval, in the quantity's unit a step.
    pub estimate: Estimate,
    /// p-value of no trend.
    pub p_value: f64,
    /// What can be said, in one sentence.
    pub sentence: String,
}

/// Share of a source in the variance of a quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BudgetRow {
    /// Which quantity.
    pub quantity: Quantity,
    /// What it is the budget of: trial id or group.
    pub of: String,
    /// Source label, "tank probe, offset".
    pub source: String,
    /// Whether the source is shared by trials.
    pub shared: bool,
    /// Standard uncertainty contributed, in the quantity's unit.
    pub contribution: f64,
    /// Share of the variance, 0 to 1.
    pub share: f64,
}

/// One comparison the pipeline asked for.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// Factor compared.
    pub factor: String,
    /// Words for a heading, with any restriction: "stove, fuel spruce only".
    pub title: String,
    /// Levels in the order of first appearance in the register.
    pub levels: Vec<String>,
    /// Group means.
    pub groups: Vec<GroupResult>,
    /// Pairwise contrasts; none of a factor that is a number, which has trends instead.
    pub contrasts: Vec<Contrast>,
    /// Energy balance by level.
    pub balances: Vec<GroupBalance>,
    /// Trends along a numeric factor and along covariates.
    pub trends: Vec<Trend>,
    /// Remarks on design and method, in order of weight.
    pub remarks: Vec<String>,
    /// What was looked for and not found.
    pub reassurances: Vec<String>,
}
