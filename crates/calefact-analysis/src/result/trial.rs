//! All that the reduction finds of one trial.

use super::{CoursePoint, ExchangerPoint, OperatingValue, TrialLaw};
use crate::Quantity;
use crate::assumed::held;
use crate::fact::{AssumedInput, EstimateMethod, Lack, Note};
use crate::finding::Finding;
use crate::fit::FitQuality;
use crate::phases::Phases;
use calefact_data::{RegisterRow, Severity};
use calefact_stats::{ErrorSources, Estimate, Source, UncertainValue};
use serde::Serialize;

/// One quantity of one trial.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrialEstimate {
    /// Which quantity.
    pub quantity: Quantity,
    /// Value with uncertainty and interval: the table row.
    pub estimate: Estimate,
    /// The same value with its parts by source, so that comparisons can let shared errors cancel.
    #[serde(skip)]
    pub traced: UncertainValue,
    /// How value and uncertainty were obtained.
    pub method: EstimateMethod,
    /// Remarks for the reader.
    pub notes: Vec<Note>,
}

impl TrialEstimate {
    /// Assumed inputs that the value rests on.
    pub fn assumed(&self) -> Vec<AssumedInput> {
        held::inputs(&self.traced.parts, self.traced.std_uncertainty())
    }
}

/// A quantity that could not be given, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Missing {
    /// Which quantity.
    pub quantity: Quantity,
    /// Things that are lacking, at least one.
    pub lacks: Vec<Lack>,
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
    pub traced: UncertainValue,
    /// Basis, assumptions.
    pub notes: Vec<Note>,
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

/// Trials whose curves are drawn.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Curves {
    /// Sets in the order of first appearance, each with its trials by their number among those shown.
    pub sets: Vec<(String, Vec<usize>)>,
    /// One in so many of each set is drawn.
    pub step: usize,
    /// All trials with a curve.
    pub trials: usize,
    /// All sets, drawn or not.
    pub all_sets: usize,
}

/// Conditions that a comparison can adjust for, each where known.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Conditions {
    /// Tank at the start, degC.
    pub start_temperature: Option<f64>,
    /// Mean air temperature, degC.
    pub air_temperature: Option<f64>,
    /// Moisture of the fuel, wet basis, mass fraction.
    pub fuel_moisture: Option<f64>,
}

impl Conditions {
    /// Names of all conditions.
    pub const NAMES: [&'static str; 3] = ["start_temperature", "air_temperature", "fuel_moisture"];

    /// A condition by its name.
    pub fn get(&self, name: &str) -> Option<f64> {
        match name {
            "start_temperature" => self.start_temperature,
            "air_temperature" => self.air_temperature,
            "fuel_moisture" => self.fuel_moisture,
            _ => None,
        }
    }
}

/// Check of a rig by a reference-heater trial.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Heater {
    /// Mean electric power, W.
    pub power: f64,
    /// Heat capacity of water and vessel, J/K.
    pub capacity: f64,
    /// Times at which the tank rose through multiples of 5 K, (degC, s).
    pub rises: Vec<(f64, f64)>,
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
    /// The exchanger at work, for forecasts of other builds; empty where its conductance is not known.
    #[serde(skip)]
    pub operating: Vec<OperatingValue>,
    /// The exchanger over the steady part, by slice; empty with few readings.
    pub exchanger_course: Vec<CoursePoint>,
    /// The law of a burn, if its heat flow is known.
    pub law: Option<TrialLaw>,
    /// Curve for charts.
    pub curve: Curve,
    /// Check of the rig, of a reference-heater trial.
    pub heater: Option<Heater>,
    /// Conditions a comparison can adjust for.
    pub conditions: Conditions,
    /// Fit quality, if a curve was fitted.
    pub fit: Option<FitQuality>,
    /// Findings of reading and reduction.
    pub findings: Vec<Finding>,
    /// Error sources that belong to this trial alone.
    #[serde(skip)]
    pub sources: ErrorSources,
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
            operating: Vec::new(),
            exchanger_course: Vec::new(),
            law: None,
            curve: Curve::default(),
            heater: None,
            conditions: Conditions::default(),
            fit: None,
            findings,
            sources: ErrorSources::new(),
        }
    }

    /// The estimate of one quantity.
    pub fn get(&self, quantity: Quantity) -> Option<&TrialEstimate> {
        self.estimates.iter().find(|e| e.quantity == quantity)
    }

    /// Whether the trial takes part in comparisons: it has no error and no reason to exclude it.
    pub fn usable(&self) -> bool {
        self.row.exclude.is_none() && self.sound()
    }

    /// Whether its data have no error.
    pub fn sound(&self) -> bool {
        !self.findings.iter().any(|f| f.severity == Severity::Error)
    }

    /// The same with one quantity alone, for pooling: what many trials would hold in memory otherwise is left behind.
    #[must_use]
    pub fn only(self, quantity: Quantity) -> Self {
        let Self { row, readings, mut estimates, findings, mut sources, .. } = self;
        estimates.retain(|e| e.quantity == quantity);
        let needed = |source: &Source| estimates.iter().any(|e| e.traced.parts.iter().any(|(s, _)| s == source));
        sources.retain(|source, _| needed(source));
        Self { estimates, sources, ..Self::empty(row, readings, findings) }
    }
}
