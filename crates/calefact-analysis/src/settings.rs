//! Settings of an analysis, resolved to SI. How a pipeline file spells them is the command's business.

mod job;

pub use job::{DescribedVessel, Job, JobVessel, ReferenceJob, Wall};

use crate::Quantity;
use calefact_data::TrialKind;
use serde::Serialize;
use std::collections::BTreeMap;

/// Everything that steers an analysis.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Settings {
    /// Level of every interval, 0 to 1.
    pub level: f64,
    /// Part of the log a trial is reduced over.
    pub window: Window,
    /// Where a burn ends.
    pub end: End,
    /// Tank temperature at which the heating rate is stated, degC.
    pub heating_rate_at: f64,
    /// How uncertainty is propagated.
    pub propagation: Propagation,
    /// Job that trials are normalised to.
    pub reference_job: Option<ReferenceJob>,
    /// Jobs to be forecast, in order.
    pub jobs: Vec<Job>,
    /// Comparisons, in order.
    pub comparisons: Vec<ComparisonRequest>,
    /// What reference-heater trials are used for.
    pub rig_check: RigCheck,
    /// How repeats are combined into a mean where nothing is adjusted for.
    pub combine: Combine,
}

impl Settings {
    /// Factor by which charts of single trials are split: that of the first comparison.
    pub fn main_factor(&self) -> &str {
        self.comparisons.first().map_or("stove", |c| c.factor.as_str())
    }
}

impl Default for Settings {
    /// 95 % intervals, whole logs to the last reading, heating rate at 40 degC, first order; no reference job and no
    /// comparison.
    fn default() -> Self {
        Self {
            level: 0.95,
            window: Window::WholeLog,
            end: End::LastReading,
            heating_rate_at: 40.0,
            propagation: Propagation::FirstOrder,
            reference_job: None,
            jobs: Vec::new(),
            comparisons: Vec::new(),
            rig_check: RigCheck::default(),
            combine: Combine::default(),
        }
    }
}

/// Part of the log.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Window {
    /// From the first reading to the trial's end.
    WholeLog,
    /// Between two tank temperatures, degC; the crossings are interpolated.
    Between {
        /// Temperature at which the window opens.
        from: f64,
        /// Temperature at which it closes.
        to: f64,
    },
}

/// End of a burn.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// Last reading.
    LastReading,
    /// First crossing of a tank temperature, degC.
    Target(f64),
    /// Reading whose `event` says the fire is out.
    FireOut,
    /// Highest tank temperature, after-heat included.
    Peak,
}

/// How uncertainty is propagated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Propagation {
    /// Law of propagation of uncertainty (JCGM 100:2008).
    FirstOrder,
    /// Propagation of distributions (JCGM 101:2008), beside first order.
    MonteCarlo {
        /// Seed of the generator.
        seed: u64,
        /// Significant digits of the standard uncertainty that must be stable.
        digits: u8,
    },
}

/// What reference-heater trials are used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum RigCheck {
    /// Shown only.
    #[default]
    Report,
    /// The ratio's distance from one is added to the uncertainty of delivered heat as a shared source.
    Bound,
    /// Delivered heat is divided by the ratio, whose uncertainty is a shared source.
    Correct,
}

/// How repeats are combined into a mean.
///
/// The unweighted mean with Student's t keeps its promise whatever the trials' own uncertainties are (95 to 98 % in
/// simulation at 3 to 10 trials), which the weighted ones do not for few trials of very different precision (87 to 95 %).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Combine {
    /// Unweighted mean.
    #[default]
    Mean,
    /// Random effects: weights from the trials' own variances and a variance between trials by REML, interval by
    /// Hartung-Knapp-Sidik-Jonkman.
    Reml,
    /// The same with the variance between trials by Paule-Mandel.
    PauleMandel,
}

/// A comparison the pipeline asks for.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ComparisonRequest {
    /// Factor whose levels are compared: any register column.
    pub factor: String,
    /// Kind of trial compared; burns unless stated.
    pub kind: TrialKind,
    /// Only trials with these levels take part.
    pub only: BTreeMap<String, String>,
    /// Further factors held constant by the model.
    pub adjust: Vec<String>,
    /// Numeric register columns (or start temperature, air temperature, moisture) held constant by the model.
    pub covariates: Vec<String>,
    /// Column that names the block (day, crew), if the design is blocked.
    pub block: Option<String>,
    /// The main quantity, where the pipeline names one. The first of the quantities is the main one.
    pub main: Option<Quantity>,
    /// Quantities compared, the main one first.
    pub quantities: Vec<Quantity>,
    /// Relative margin within which two levels count as the same, 0 to 1, if equivalence is of interest.
    pub equivalence_margin: Option<f64>,
    /// Trials of each level that are planned: the verdicts are due then.
    pub planned: Option<u32>,
}

impl ComparisonRequest {
    /// A factor compared over all trials of a kind in what is usual for the kind, nothing held constant.
    pub fn new(factor: impl Into<String>, kind: TrialKind) -> Self {
        let factor = factor.into();
        let mut quantities = usual(kind).to_vec();
        if factor == "exchanger" {
            // Stable: the quantities of the exchanger itself come first, conductance before effectiveness.
            quantities.sort_by_key(|q| match q {
                Quantity::ExchangerConductance => 0,
                Quantity::ExchangerEffectiveness => 1,
                _ => 2,
            });
        }
        Self {
            factor,
            kind,
            only: BTreeMap::new(),
            adjust: Vec::new(),
            covariates: Vec::new(),
            block: None,
            main: None,
            quantities,
            equivalence_margin: None,
            planned: None,
        }
    }

    /// The same with a main quantity, which carries the verdict and comes first.
    #[must_use]
    pub fn with_main(mut self, main: Option<Quantity>) -> Self {
        if let Some(main) = main {
            self.quantities.retain(|q| *q != main);
            self.quantities.insert(0, main);
        }
        self.main = main;
        self
    }

    /// Every register column it names, each with the key that names it.
    pub fn columns(&self) -> impl Iterator<Item = (&'static str, &str)> {
        let held = self.adjust.iter().map(|c| ("adjust", c)).chain(self.covariates.iter().map(|c| ("covariates", c)));
        let rest = self.block.iter().map(|c| ("block", c)).chain(self.only.keys().map(|c| ("only", c)));
        [("factor", &self.factor)].into_iter().chain(held).chain(rest).map(|(key, column)| (key, column.as_str()))
    }
}

/// Quantities compared of a kind of trial where nothing else is said.
const fn usual(kind: TrialKind) -> &'static [Quantity] {
    match kind {
        TrialKind::Burn => &[
            Quantity::ThermalEfficiency,
            Quantity::FuelPerHeat,
            Quantity::HeatInput,
            Quantity::HeatingRate,
            Quantity::BurnRate,
            Quantity::CostPerHeat,
            Quantity::ExchangerEffectiveness,
            Quantity::ExchangerConductance,
            Quantity::FlueLoss,
            Quantity::ReferenceTime,
            Quantity::ReferenceFuel,
        ],
        TrialKind::StandingLoss => &[Quantity::LossCoefficient],
        TrialKind::ReferenceHeater => {
            &[Quantity::StoredFraction, Quantity::ReferenceHeaterRatio, Quantity::HeatingRate]
        }
    }
}
