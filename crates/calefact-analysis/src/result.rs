//! What an analysis hands on: plain values, one type a stage, each printable and serialisable alone.

mod heat_path;

pub use heat_path::{Caution, CoursePoint, ExchangerPoint, GroupBalance};

use crate::Quantity;
use crate::phases::Phases;
use crate::settings::Settings;
use calefact_data::apparatus::Exchanger;
use calefact_data::{Finding, RegisterRow};
use calefact_stats::{Estimate, Interval, SourceBook, Traced};
use serde::Serialize;
use std::collections::BTreeMap;

/// One quantity of one trial.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrialEstimate {
    /// Which quantity.
    pub quantity: Quantity,
    /// Value with uncertainty and interval: the table row.
    pub estimate: Estimate,
    /// The same value with its parts by source, so that comparisons can let shared errors cancel.
    #[serde(skip)]
    pub traced: Traced,
    /// Remark for the reader, empty if none.
    pub note: String,
}

/// A quantity that could not be given, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Missing {
    /// Which quantity.
    pub quantity: Quantity,
    /// What is lacking, in words: "no moisture basis in the register".
    pub reason: String,
}

/// One term of a trial's energy balance.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BalanceTerm {
    /// Term name: `stored`, `standing_loss`, `flue_sensible`, `flue_co`, `casing`, `leftover_fuel`, `leftover_char`,
    /// `unaccounted`; beside the sum `fuel` and `flue_latent`.
    pub term: &'static str,
    /// Energy, MJ, with interval.
    pub energy: Estimate,
    /// Share of the fuel energy the balance is drawn on, with interval.
    pub share: Estimate,
    /// The share with its parts by source, so that group means keep shared errors.
    #[serde(skip)]
    pub traced: Traced,
    /// Remark: basis, assumption.
    pub note: String,
}

/// Thinned tank curve and fitted curve for charts.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Curve {
    /// Measured (elapsed s, tank degC), at most a few hundred points.
    pub measured: Vec<(f64, f64)>,
    /// Fitted curve at the same kind of spacing; empty if no fit.
    pub fitted: Vec<(f64, f64)>,
    /// Start and end of the window, s.
    pub window: (f64, f64),
}

/// How well the heat-balance model fits.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FitQuality {
    /// Readings in the fit.
    pub n: usize,
    /// Residual standard deviation, K.
    pub residual_sd: f64,
    /// Lag-one autocorrelation of the residuals, if enough readings.
    pub lag_one: Option<f64>,
    /// p-value of the runs test of the residuals, if enough readings.
    pub runs_p: Option<f64>,
    /// Whether the model is taken to fit.
    pub fits: bool,
    /// One sentence for a reader.
    pub verdict: String,
}

/// All that is known of one trial after reduction.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrialResult {
    /// Register row.
    pub row: RegisterRow,
    /// Number of readings in the log.
    pub readings: usize,
    /// Estimates, in the order of [`Quantity::ALL`].
    pub estimates: Vec<TrialEstimate>,
    /// Quantities asked of this kind of trial that could not be given.
    pub missing: Vec<Missing>,
    /// Energy balance; its terms add up to the fuel as put on, net basis. Empty where no fuel energy is known.
    pub balance: Vec<BalanceTerm>,
    /// Lines beside the balance: the fuel itself, and latent heat of the flue gas, which counts on the gross basis only.
    pub balance_beside: Vec<BalanceTerm>,
    /// Phases of a burn; empty for other kinds.
    pub phases: Phases,
    /// Steady mean of the exchanger, if its conductance and the gas flow are known.
    pub exchanger: Option<ExchangerPoint>,
    /// The exchanger over the steady part, by slice; empty with few readings.
    pub exchanger_course: Vec<CoursePoint>,
    /// Curve for charts.
    pub curve: Curve,
    /// Times at which the tank rose through multiples of 5 K, (degC, s), of reference-heater trials.
    pub rises: Vec<(f64, f64)>,
    /// Mean electric power of reference-heater trials, W, and heat capacity of their water and vessel, J/K.
    pub heater: Option<(f64, f64)>,
    /// Conditions a comparison can adjust for: `start_temperature` and `air_temperature` (degC), `fuel_moisture` (wet
    /// basis, mass fraction); each where known.
    pub conditions: BTreeMap<String, f64>,
    /// Fit quality, if a curve was fitted.
    pub fit: Option<FitQuality>,
    /// Findings of reading and reduction.
    pub findings: Vec<Finding>,
    /// Error sources that belong to this trial alone.
    #[serde(skip)]
    pub sources: SourceBook,
}

impl TrialResult {
    /// A result with nothing in it yet.
    pub fn empty(row: RegisterRow, readings: usize, findings: Vec<Finding>) -> Self {
        Self {
            row,
            readings,
            estimates: Vec::new(),
            missing: Vec::new(),
            balance: Vec::new(),
            balance_beside: Vec::new(),
            phases: Phases::default(),
            exchanger: None,
            exchanger_course: Vec::new(),
            curve: Curve::default(),
            rises: Vec::new(),
            heater: None,
            conditions: BTreeMap::new(),
            fit: None,
            findings,
            sources: SourceBook::new(),
        }
    }

    /// The estimate of one quantity.
    pub fn get(&self, quantity: Quantity) -> Option<&TrialEstimate> {
        self.estimates.iter().find(|e| e.quantity == quantity)
    }

    /// Whether the trial takes part in comparisons: it has no error and no reason to exclude it.
    pub fn usable(&self) -> bool {
        self.row.exclude.is_none() && !self.findings.iter().any(|f| f.severity == calefact_data::Severity::Error)
    }
}

/// One quantity of one group of trials.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupResult {
    /// Factor and level, one pair for a comparison over one factor, more for cells.
    pub levels: Vec<(String, String)>,
    /// Which quantity.
    pub quantity: Quantity,
    /// Trials in the group that have the quantity, in register order.
    pub trials: Vec<String>,
    /// Mean with interval: scatter and shared instrument errors.
    pub mean: Estimate,
    /// The mean with its parts by source.
    #[serde(skip)]
    pub traced: Traced,
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
    /// Method settings in words, one line each, for the method section.
    pub method: Vec<String>,
    /// Currency of costs, where all fuels state the same one.
    pub currency: Option<String>,
    /// Exchangers by id, with their builds.
    pub exchangers: BTreeMap<String, Exchanger>,
    /// Trials in register order.
    pub trials: Vec<TrialResult>,
    /// Pooled loss coefficient by vessel, with the trials it rests on.
    pub losses: Vec<VesselLoss>,
    /// Comparisons in pipeline order.
    pub comparisons: Vec<Comparison>,
    /// Cautions, one a kind with the trials that call for it; empty where nothing was burnt.
    pub cautions: Vec<Caution>,
    /// Uncertainty budget by quantity.
    pub budget: Vec<BudgetRow>,
    /// Advice drawn from the budget, in words.
    pub advice: Vec<String>,
    /// Findings that belong to no trial.
    pub findings: Vec<Finding>,
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
    pub traced: Traced,
    /// Sources that come with the pooling: the scatter between its trials, or the single trial's own.
    #[serde(skip)]
    pub sources: SourceBook,
}
