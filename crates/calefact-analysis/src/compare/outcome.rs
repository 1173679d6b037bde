//! The question a comparison asks and what one quantity comes to: plain values, computed in `one_quantity`.

use super::plan::Plan;
use crate::Quantity;
use crate::fact::ConfoundedColumn;
use crate::result::{Adjustment, ContrastKind, Method, Remark};
use crate::settings::{Combine, ComparisonRequest};
use crate::shared::SharedSources;
use calefact_stats::contrast::Contrast as Test;
use calefact_stats::influence::Outlyingness;
use calefact_stats::power::Arm;
use calefact_stats::{Interval, Source, SourceInfo, UncertainValue};
use std::sync::Arc;

/// Parts that stay the same for all questions of a comparison.
#[derive(Debug, Clone, Copy)]
pub struct Question<'q> {
    /// The request.
    pub request: &'q ComparisonRequest,
    /// Confidence of intervals.
    pub confidence: f64,
    /// How repeats are combined.
    pub combine: Combine,
    /// Sources that trials share.
    pub shared: &'q SharedSources,
    /// Currency of costs.
    pub currency: Option<&'q str>,
    /// Where the comparison stands in its plan, if it has one.
    pub plan: Option<&'q Plan>,
}

/// How much is wanted: all, or only what verdicts on differences need (no intervals, no ratios).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// All.
    Full,
    /// Verdicts on differences.
    Verdicts,
}

/// Mean of one level.
#[derive(Debug, Clone)]
pub struct LevelMean {
    /// Level.
    pub level: String,
    /// Trials behind it.
    pub trials: Arc<[Arc<str>]>,
    /// Mean with shared parts and own scatter.
    pub value: UncertainValue,
    /// Effective degrees of freedom.
    pub dof: f64,
    /// Standard deviation between trials.
    pub sd: Option<f64>,
    /// Its interval, where the method gives one.
    pub sd_interval: Option<Interval>,
    /// Interval for the next trial.
    pub predict: Option<Interval>,
    /// How it was obtained.
    pub method: Method,
    /// The scatter's source.
    pub scatter: Option<(Source, SourceInfo)>,
}

/// Two levels against each other.
#[derive(Debug, Clone)]
pub struct PairTest {
    /// Index of the first level.
    pub a: usize,
    /// Index of the second level.
    pub b: usize,
    /// Difference or ratio.
    pub kind: ContrastKind,
    /// Pointwise test, shared errors included.
    pub test: Test,
    /// p-value adjusted for all pairs and for the looks of the plan.
    pub p_adjusted: f64,
    /// Whether the planned number of trials is not reached.
    pub early: bool,
    /// Interval that goes with it.
    pub interval: Interval,
    /// Trials and scatter behind each side, for planning.
    pub arms: (Arm, Arm),
    /// Parts of shared sources: what more trials would not reduce.
    pub shared: Vec<(Source, f64)>,
    /// Adjustment for the number of pairs.
    pub adjustment: Adjustment,
    /// How the contrast was obtained.
    pub method: Method,
    /// Columns that no trial tells apart from the difference.
    pub confounded: Vec<ConfoundedColumn>,
}

impl PairTest {
    /// Whether it is about the same two levels.
    pub fn same_levels(&self, other: &Self) -> bool {
        (self.a, self.b) == (other.a, other.b)
    }
}

/// Slope along a number.
#[derive(Debug, Clone)]
pub struct Slope {
    /// Column or condition.
    pub factor: String,
    /// Test of no slope, shared errors included.
    pub test: Test,
    /// p-value adjusted for the looks of the plan.
    pub p_value: f64,
    /// Trials behind it.
    pub n: usize,
    /// Parts of shared sources.
    pub shared: Vec<(Source, f64)>,
    /// Columns that no trial tells apart from the trend.
    pub confounded: Vec<String>,
}

/// All of one quantity.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// Which quantity.
    pub quantity: Quantity,
    /// Means by level.
    pub means: Vec<LevelMean>,
    /// Differences of all pairs, then ratios.
    pub pairs: Vec<PairTest>,
    /// Slopes.
    pub slopes: Vec<Slope>,
    /// Remarks on how it was done.
    pub remarks: Vec<Remark>,
    /// Whether a model was fitted.
    pub adjusted: bool,
    /// Columns that the model holds constant.
    pub held: Vec<String>,
    /// Trials that are odd.
    pub odd: Vec<(Arc<str>, Outlyingness)>,
}
