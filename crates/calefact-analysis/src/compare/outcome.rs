//! What one quantity of one comparison comes to, before it is put in words.
//!
//! A pure function of trials and request, so that the same can be asked again without a trial, or with the excluded ones
//! put back.

use super::frame::{Frame, Plan};
use super::sample::Sample;
use super::{adjusted, trend, unadjusted};
use crate::Quantity;
use crate::result::{ContrastKind, TrialSummary};
use crate::settings::{Combine, ComparisonRequest};
use crate::shared::SharedSources;
use calefact_stats::contrast::Contrast as Test;
use calefact_stats::influence::Outlyingness;
use calefact_stats::power::Arm;
use calefact_stats::{Interval, Source, SourceInfo, UncertainValue};
use std::sync::Arc;

/// What stays the same for all questions of a comparison.
#[derive(Debug, Clone, Copy)]
pub struct Question<'q> {
    /// The request.
    pub request: &'q ComparisonRequest,
    /// Level of intervals.
    pub level: f64,
    /// How repeats are combined.
    pub combine: Combine,
    /// Sources that trials share.
    pub shared: &'q SharedSources,
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
    pub method: String,
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
    /// p-value adjusted for all pairs.
    pub p_adjusted: f64,
    /// Interval that goes with it.
    pub interval: Interval,
    /// Trials and scatter behind each side, for planning.
    pub arms: (Arm, Arm),
    /// Parts of shared sources: what more trials would not reduce.
    pub shared: Vec<(Source, f64)>,
    /// Name of the adjustment.
    pub adjustment: &'static str,
    /// How the contrast was obtained.
    pub method: String,
}

/// Slope along a number.
#[derive(Debug, Clone)]
pub struct Slope {
    /// Column or condition.
    pub factor: String,
    /// Test of no slope, shared errors included.
    pub test: Test,
    /// Trials behind it.
    pub n: usize,
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
    pub remarks: Vec<String>,
    /// Whether a model was fitted.
    pub adjusted: bool,
    /// Trials that are odd.
    pub odd: Vec<(Arc<str>, Outlyingness)>,
}

/// Compares one quantity over `chosen` trials; `order` is the order of the levels.
pub fn analyse(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    order: &[String],
    quantity: Quantity,
    depth: Depth,
) -> Outcome {
    let sample = Sample::of(question.request, chosen, quantity);
    let mut remarks = match Frame::plan(question.request, &sample, order) {
        Plan::Plain(remarks) => remarks,
        Plan::Model(frame) => match by_model(question, &sample, &frame, order, depth) {
            Ok(outcome) => return outcome,
            Err(remark) => vec![remark],
        },
    };
    remarks.retain(|r| !r.is_empty());
    let (means, pairs) = unadjusted::analyse(question, &sample, order, depth);
    let odd = unadjusted::odd(&sample);
    Outcome { quantity, means, pairs, slopes: Vec::new(), remarks, adjusted: false, odd }
}

fn by_model(
    question: Question<'_>,
    sample: &Sample<'_>,
    frame: &Frame<'_>,
    order: &[String],
    depth: Depth,
) -> Result<Outcome, String> {
    let model = adjusted::Model::fit(question, frame, depth)?;
    let (means, pairs) = if frame.numeric {
        (unadjusted::means(question, sample, order), Vec::new())
    } else {
        (model.means()?, model.pairs(depth)?)
    };
    let slopes = if depth == Depth::Full { trend::slopes(&model) } else { Vec::new() };
    let mut remarks = frame.remarks.clone();
    remarks.extend(model.remarks());
    Ok(Outcome { quantity: sample.quantity, means, pairs, slopes, remarks, adjusted: true, odd: frame.odd() })
}
