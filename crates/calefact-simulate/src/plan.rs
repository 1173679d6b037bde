//! One trial to be made: what is set up, how long, how it is logged.

use calefact_data::{Channel, TrialKind};
use std::collections::BTreeMap;

/// One trial to be made.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialPlan {
    /// Trial id.
    pub trial: String,
    /// Kind.
    pub kind: TrialKind,
    /// Date as it will stand in the register.
    pub date: String,
    /// Day: the block of the design.
    pub block: String,
    /// Who does it.
    pub operator: String,
    /// True water volume at the start temperature, m3.
    pub water_m3: f64,
    /// Tank at the start, degC.
    pub start: f64,
    /// Air around the vessel.
    pub air: Air,
    /// Fire, for a burn.
    pub burn: Option<BurnPlan>,
    /// Electric power, W, for a reference-heater trial.
    pub heater_power: f64,
    /// Length of a trial that is no burn, s. A burn lasts until its fire and its after-heat are over.
    pub duration_s: f64,
    /// How it is logged.
    pub logging: Logging,
    /// Further register columns.
    pub extra: BTreeMap<String, String>,
    /// Reason to exclude it.
    pub exclude: Option<String>,
    /// Remark.
    pub note: Option<String>,
}

/// Air around the vessel: a temperature and a drift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// At the start, degC.
    pub start: f64,
    /// Drift, K/s.
    pub drift: f64,
}

impl Air {
    /// Temperature at a time, degC.
    pub fn at(&self, elapsed_s: f64) -> f64 {
        self.drift.mul_add(elapsed_s, self.start)
    }
}

/// Fire of a burn.
#[derive(Debug, Clone, PartialEq)]
pub struct BurnPlan {
    /// Index of the stove.
    pub stove: usize,
    /// Index of the fuel.
    pub fuel: usize,
    /// Index of the exchanger.
    pub exchanger: usize,
    /// Fuel put on the fire in total, without kindling, kg as fired.
    pub fuel_mass: f64,
    /// Kindling, kg.
    pub kindling: f64,
    /// Unburnt wood taken back, kg.
    pub leftover_fuel: f64,
    /// Char taken back, kg.
    pub leftover_char: f64,
    /// True moisture, wet basis, mass fraction.
    pub moisture: f64,
    /// Refuelling during the burn.
    pub refuel: Option<Refuel>,
    /// Added to the efficiency of this burn alone (an odd burn).
    pub efficiency: f64,
}

impl BurnPlan {
    /// Wood burnt, kg as fired: fuel and kindling less the wood taken back.
    pub fn burnt(&self) -> f64 {
        self.fuel_mass + self.kindling - self.leftover_fuel
    }
}

/// Fuel put on during the burn; part of the total.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Refuel {
    /// When, as a share of the steady part.
    pub at: f64,
    /// How much, kg.
    pub mass: f64,
}

/// How a trial is logged.
#[derive(Debug, Clone, PartialEq)]
pub struct Logging {
    /// Number of rows.
    pub rows: usize,
    /// The interval is a whole multiple of this, s.
    pub step_s: f64,
    /// Columns.
    pub channels: Vec<Channel>,
}

impl Logging {
    /// Whether the flue gas is measured at all.
    pub fn wants_flue(&self) -> bool {
        self.channels.iter().any(|c| matches!(c, Channel::FlueBefore | Channel::FlueAfter | Channel::FlueO2))
    }
}
