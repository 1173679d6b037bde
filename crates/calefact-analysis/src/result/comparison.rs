//! What comparing trials comes to: groups, contrasts, trends, budget.

use super::{GroupBalance, Interaction, Method, Remark, SampleSizeAdvice, VerdictKind};
use crate::Quantity;
use crate::assumed::held;
use crate::fact::{AssumedInput, ConfoundedColumn, ErrorSource};
use calefact_data::TrialKind;
use calefact_stats::{Estimate, Interval, UncertainValue};
use serde::Serialize;
use std::collections::BTreeMap;
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
    /// Mean with interval: scatter and shared instrument errors; of one trial its own estimate (see [`Self::is_one_trial`]).
    pub mean: Estimate,
    /// How the mean was obtained.
    pub method: Method,
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

impl GroupResult {
    /// Whether this is the value of one trial: nothing is known of how much trials differ, so that the interval is that of the
    /// trial and none of a mean over many.
    pub fn is_one_trial(&self) -> bool {
        self.method == Method::SingleTrial
    }

    /// Whether the interval holds every value that the quantity can have.
    pub fn is_open(&self) -> bool {
        self.quantity.bounds().is_filled_by(self.mean.interval)
    }

    /// Assumed inputs that the mean rests on.
    pub fn assumed(&self) -> Vec<AssumedInput> {
        held::inputs(&self.traced.parts, self.mean.std_uncertainty)
    }
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

impl From<ContrastKind> for calefact_stats::contrast::ContrastKind {
    fn from(kind: ContrastKind) -> Self {
        match kind {
            ContrastKind::Difference => Self::Difference,
            ContrastKind::Ratio => Self::Ratio,
        }
    }
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
    /// Means of the two levels, in the unit of the quantity.
    pub means: (f64, f64),
    /// Difference or ratio.
    pub kind: ContrastKind,
    /// Value with its interval, simultaneous over the family.
    pub estimate: Estimate,
    /// Assumed inputs that the contrast rests on.
    pub assumed: Vec<AssumedInput>,
    /// How the contrast was obtained.
    pub method: Method,
    /// p-value of no difference, unadjusted.
    pub p_value: f64,
    /// p-value adjusted for the pairs of the quantity, as the interval is.
    pub p_pairs: f64,
    /// p-value adjusted for all verdicts of the page; of a ratio, that of its difference.
    pub p_adjusted: f64,
    /// Adjustment for the pairs of the quantity.
    pub adjustment: Adjustment,
    /// What can be said.
    pub verdict: VerdictKind,
    /// Whether the quantity is the main one of its comparison.
    pub main: bool,
    /// Trials of each level that are planned.
    pub planned: Option<u32>,
    /// Margin of equivalence as a share of the larger mean, where the pipeline states one.
    pub margin: Option<f64>,
    /// What would settle a difference that is open, if that can be told.
    pub sample_size: Option<SampleSizeAdvice>,
    /// Columns that no trial tells apart from the difference.
    pub confounded: Vec<ConfoundedColumn>,
    /// The uncertainty by source: errors that trials share, and the scatter between trials.
    #[serde(skip)]
    pub traced: UncertainValue,
}

/// Adjustment of p-values and intervals for the number of contrasts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Adjustment {
    /// Holm's step-down method, for contrasts of plain means.
    Holm,
    /// The studentized range in Tukey and Kramer's form, for contrasts by a model.
    TukeyKramer,
}

impl Adjustment {
    /// Name in the tables.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Holm => "holm",
            Self::TukeyKramer => "tukey-kramer",
        }
    }
}

/// Slope of a quantity along a number: a factor whose levels are numbers, or a covariate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trend {
    /// Which quantity.
    pub quantity: Quantity,
    /// The column or condition it follows.
    pub factor: String,
    /// One step of it.
    pub step: Step,
    /// Trials behind it.
    pub n: usize,
    /// Slope with interval, in the quantity's unit for each step.
    pub estimate: Estimate,
    /// p-value of no trend.
    pub p_value: f64,
    /// p-value adjusted for all verdicts of the page.
    pub p_adjusted: f64,
    /// Columns that no trial tells apart from the trend.
    pub confounded: Vec<String>,
    /// The slope with its parts by source, for one unit of the number.
    #[serde(skip)]
    pub traced: UncertainValue,
}

impl Trend {
    /// Whether the slope is told apart from zero, all verdicts of the page together.
    pub fn follows(&self) -> bool {
        self.p_adjusted < 1.0 - self.estimate.interval.confidence
    }
}

/// Step of a number that a quantity follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Step {
    /// 1 K of a temperature.
    Kelvin,
    /// One percentage point of a fraction.
    Point,
    /// 1 in the unit of a register column.
    Unit,
}

/// Owner of a budget.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BudgetOwner {
    /// The value of a trial.
    Trial(Arc<str>),
    /// The difference of two levels.
    Difference {
        /// Place of the comparison in the list of comparisons.
        comparison: usize,
        /// Factor compared.
        factor: String,
        /// First level.
        a: String,
        /// Second level.
        b: String,
    },
    /// The mean of a group.
    Group {
        /// Place of the comparison in the list of comparisons.
        comparison: usize,
        /// Factors and levels of the group.
        levels: Vec<(String, String)>,
    },
}

/// Share of a source in the variance of a quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BudgetRow {
    /// Which quantity.
    pub quantity: Quantity,
    /// Its owner.
    pub owner: BudgetOwner,
    /// Source of error.
    pub source: ErrorSource,
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
    /// Kind of trial compared.
    pub kind: TrialKind,
    /// Only trials with these levels take part, by column.
    pub only: BTreeMap<String, String>,
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
    pub remarks: Vec<Remark>,
    /// Interactions that were looked for and not found.
    pub reassurances: Vec<Interaction>,
}
