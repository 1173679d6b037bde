//! One trial to be made: what is set up, how long, how it is logged.

use calefact_data::{Channel, TrialKind};
use std::collections::BTreeMap;

/// One trial to be made.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct TrialPlan {
    /// Trial id.
    pub(crate) trial: String,
    /// Kind.
    pub(crate) kind: TrialKind,
    /// Date as it will stand in the register.
    pub(crate) date: String,
    /// Day: the block of the design.
    pub(crate) block: String,
    /// Who does it.
    pub(crate) operator: String,
    /// True water volume at the start temperature, m3.
    pub water_m3: f64,
    /// Tank at the start, degC.
    pub(crate) start: f64,
    /// Air around the vessel.
    pub(crate) air: Air,
    /// Fire, for a burn.
    pub(crate) burn: Option<BurnPlan>,
    /// Electric power, W, for a reference-heater trial.
    pub(crate) heater_power: f64,
    /// Length of a trial that is no burn, s. A burn lasts until its fire and its after-heat are over.
    pub(crate) duration_s: f64,
    /// How it is logged.
    pub(crate) logging: Logging,
    /// Further register columns.
    pub(crate) extra: BTreeMap<String, String>,
    /// Reason to exclude it.
    pub(crate) exclude: Option<String>,
    /// Remark.
    pub(crate) note: Option<String>,
}

/// Air around the vessel: a temperature and a drift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Air {
    /// At the start, degC.
    pub(crate) start: f64,
    /// Drift, K/s.
    pub(crate) drift: f64,
}

impl Air {
    /// Temperature at a time, degC.
    pub(crate) fn at(&self, elapsed_s: f64) -> f64 {
        self.drift.mul_add(elapsed_s, self.start)
    }
}

/// Fire of a burn.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct BurnPlan {
    /// Index of the stove.
    pub(crate) stove: usize,
    /// Index of the fuel.
    pub(crate) fuel: usize,
    /// Index of the exchanger.
    pub(crate) exchanger: usize,
    /// Fuel put on the fire in total, without kindling, kg as fired.
    pub(crate) fuel_mass: f64,
    /// Kindling, kg.
    pub(crate) kindling: f64,
    /// Unburnt wood taken back, kg.
    pub(crate) leftover_fuel: f64,
    /// Char taken back, kg.
    pub(crate) leftover_char: f64,
    /// True moisture, wet basis, mass fraction.
    pub(crate) moisture: f64,
    /// Refuelling during the burn.
    pub(crate) refuel: Option<Refuel>,
    /// Added to the efficiency of this burn alone (an odd burn).
    pub(crate) efficiency: f64,
}

impl BurnPlan {
    /// Wood burnt, kg as fired: fuel and kindling less the wood taken back.
    pub(crate) fn burnt(&self) -> f64 {
        self.fuel_mass + self.kindling - self.leftover_fuel
    }
}

/// Fuel put on during the burn; part of the total.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Refuel {
    /// When, as a share of the steady part.
    pub(crate) at: f64,
    /// How much, kg.
    pub(crate) mass: f64,
}

/// How a trial is logged.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Logging {
    /// Number of rows.
    pub(crate) rows: usize,
    /// The interval is a whole multiple of this, s.
    pub(crate) step_s: f64,
    /// Columns.
    pub(crate) channels: Vec<Channel>,
}

impl Logging {
    /// Whether the flue gas is measured at all.
    pub(crate) fn wants_flue(&self) -> bool {
        self.channels.iter().any(|c| matches!(c, Channel::FlueBefore | Channel::FlueAfter | Channel::FlueO2))
    }
}
