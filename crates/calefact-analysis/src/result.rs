//! What an analysis hands on: plain values, one type a stage, each printable and serialisable alone.

mod advice;
mod assumptions;
mod book;
mod build;
mod comparison;
mod confounding;
mod forecast;
mod heat_path;
mod law;
mod method;
mod numbers;
mod operating;
mod planning;
mod remark;
mod sample_size;
mod trial;
mod trial_summary;
mod verdict_kind;

pub use crate::fit::FitQuality;
pub use advice::{Advice, Cross, LargestSource, Narrow, RepeatBenefit, Subject};
pub use assumptions::{Assumptions, LowerBound, Recording};
pub use book::{Book, BookEntry, BookLine, BookMeasure, CombinationIds, Period, RigsLine, Work};
pub use build::{
    AreaExponent, BuildCaution, BuildCurve, BuildForecast, BuildModel, BuildOutcome, BuildPoint, BuildRefusal, Builds,
    BurnScatter, MarkedBuild, MeasuredExchanger, Reach,
};
pub use comparison::{
    Adjustment, BudgetOwner, BudgetRow, Comparison, Contrast, ContrastKind, GroupResult, Step, Trend,
};
pub use confounding::{Uneven, UnevenCondition};
pub use forecast::{
    Combination, CurvePoint, Draw, Extent, Forecast, Forecasts, JobForecast, Outside, OwnJob, Refusal, ScatterOrigin,
    Spread, Stretch, VesselDraw, VesselDraws, VesselOrigin,
};
pub use heat_path::{CoursePoint, ExchangerPoint, GroupBalance};
pub use law::{LawParameter, TrialExtent, TrialLaw};
pub use method::{Method, ModelDescription};
pub use numbers::{Name, Numbers, Packer};
pub use operating::{OperatingBurn, OperatingPart, OperatingValue};
pub use planning::{
    Aim, AimPlan, AimSource, BurnOrder, BurnsNeeded, CampaignPlan, Floor, LevelBurns, PlanAnswer, PlannedBurn,
    PlannedScatter, Saving, TargetPlan, Typical,
};
pub use remark::{
    Confounded, Effect, Excluded, FitFailure, Interaction, MeanChange, NoAdjustment, OddTrial, Remark, VerdictChange,
};
pub use sample_size::{ErrorOrigin, SampleSizeAdvice};
pub use trial::{BalanceTerm, Conditions, Curve, Curves, Heater, Missing, TrialEstimate, TrialResult};
pub use trial_summary::{Gap, TrialSummary};
pub use verdict_kind::VerdictKind;

use crate::finding::{Finding, FindingSummary};
use crate::settings::Settings;
use calefact_data::ApparatusNames;
use calefact_data::apparatus::Exchanger;
use calefact_stats::{ErrorSources, Estimate, UncertainValue};
use serde::Serialize;
use std::collections::BTreeMap;

/// The whole result of a pipeline.
#[derive(Debug, Clone, Serialize)]
pub struct Analysis {
    /// Pipeline name, the folder of its reports.
    pub name: String,
    /// Title.
    pub title: String,
    /// Whether any dataset is invented.
    pub invented: bool,
    /// Confidence level used throughout.
    pub level: f64,
    /// Settings, resolved.
    pub settings: Settings,
    /// Currency of costs, where all fuels state the same one.
    pub currency: Option<String>,
    /// Names of the apparatus for readers.
    pub names: ApparatusNames,
    /// Exchangers by id, with their builds.
    pub exchangers: BTreeMap<String, Exchanger>,
    /// Every trial in few words, in register order.
    pub trials: Vec<TrialSummary>,
    /// The trials that are shown one by one, with all that was found of them; of few trials all, in register order.
    pub shown: Vec<TrialResult>,
    /// Which of them have their curves drawn.
    pub curves: Curves,
    /// Quantities that could not be given, in the order in which they were first met.
    pub gaps: Vec<Gap>,
    /// Pooled loss coefficient by vessel, with the trials it rests on.
    pub losses: Vec<VesselLoss>,
    /// Comparisons in pipeline order.
    pub comparisons: Vec<Comparison>,
    /// Forecasts of jobs not done yet.
    pub forecasts: Forecasts,
    /// Exchangers that have not been built: what other lengths, passes and water flows would do.
    pub builds: Builds,
    /// Wood, time and cost of heat and jobs with each combination of stove, fuel and exchanger, with the burns behind it.
    pub book: Vec<BookEntry>,
    /// Uncertainty budget by quantity.
    pub budget: Vec<BudgetRow>,
    /// Inputs it rests on that nobody recorded.
    pub assumptions: Assumptions,
    /// Advice drawn from the budget.
    pub advice: Vec<Advice>,
    /// Findings that belong to no trial.
    pub findings: Vec<Finding>,
    /// All findings in few words, those of no trial first.
    pub noticed: FindingSummary,
}

/// Pooled loss coefficient of a vessel.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VesselLoss {
    /// Vessel id.
    pub vessel: String,
    /// Standing-loss trials it rests on; empty when the dataset states it.
    pub trials: Vec<String>,
    /// Pooled estimate, W/K.
    pub estimate: Estimate,
    /// The same with parts by source.
    #[serde(skip)]
    pub traced: UncertainValue,
    /// Sources that come with the pooling: the scatter between its trials, or the single trial's own.
    #[serde(skip)]
    pub sources: ErrorSources,
}
