//! The register: one row a trial, in SI.

use crate::Origin;
use serde::Serialize;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

/// Kind of trial.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum TrialKind {
    /// Fuel heats the water.
    Burn,
    /// No heat in; the vessel cools.
    StandingLoss,
    /// Metered electric heat: checks the rig itself.
    ReferenceHeater,
}

impl TrialKind {
    /// The word used in the register.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Burn => "burn",
            Self::StandingLoss => "standing-loss",
            Self::ReferenceHeater => "reference-heater",
        }
    }
}

/// Basis of a moisture content.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum MoistureBasis {
    /// Water over total mass.
    Wet,
    /// Water over dry mass (pin meters).
    Dry,
}

/// Water in the vessel, as it was measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Water {
    /// Volume at the start temperature, m3.
    Volume(f64),
    /// Mass, kg.
    Mass(f64),
}

/// One register row. `None` means the cell was blank or the column absent.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RegisterRow {
    /// Trial id, unique in the register.
    pub trial: String,
    /// Kind.
    pub kind: TrialKind,
    /// Date as written.
    pub date: Option<String>,
    /// Log file, relative to the dataset folder.
    pub log: PathBuf,
    /// Stove id.
    pub stove: Option<String>,
    /// Fuel id.
    pub fuel: Option<String>,
    /// Exchanger id.
    pub exchanger: Option<String>,
    /// Vessel id.
    pub vessel: String,
    /// Water in the vessel.
    pub water: Water,
    /// Fuel put on the fire in total, kg as fired.
    pub fuel_mass: Option<f64>,
    /// Moisture content, mass fraction on `moisture_basis`.
    pub fuel_moisture: Option<f64>,
    /// Basis of the moisture content.
    pub moisture_basis: Option<MoistureBasis>,
    /// Kindling, kg as fired, taken to be the fuel's wood at the fuel's moisture.
    pub kindling_mass: Option<f64>,
    /// Unburnt wood taken back, kg.
    pub leftover_fuel: Option<f64>,
    /// Char taken back, kg.
    pub leftover_char: Option<f64>,
    /// Electric power of the reference heater, W.
    pub heater_power: Option<f64>,
    /// Air temperature, degC, where the log has no `ambient` column.
    pub ambient: Option<f64>,
    /// Height above sea level, m; the site's where blank.
    pub altitude: Option<f64>,
    /// Block (day, crew) for blocked designs.
    pub block: Option<String>,
    /// Who did it.
    pub operator: Option<String>,
    /// Reason for leaving the trial out of comparisons; never blank text.
    pub exclude: Option<String>,
    /// Remark.
    pub note: Option<String>,
    /// Further columns, kept as written; any can be a factor, a numeric one a covariate.
    pub extra: BTreeMap<String, String>,
    /// Line of the row in the register file, from 1.
    pub line: u64,
    /// The dataset it belongs to.
    #[serde(skip)]
    pub origin: Arc<Origin>,
}

impl RegisterRow {
    /// A row with only what every row must have; all else blank, as on line 0.
    pub fn bare(trial: &str, kind: TrialKind, log: impl Into<PathBuf>, vessel: &str, water: Water) -> Self {
        Self {
            trial: trial.to_owned(),
            kind,
            date: None,
            log: log.into(),
            stove: None,
            fuel: None,
            exchanger: None,
            vessel: vessel.to_owned(),
            water,
            fuel_mass: None,
            fuel_moisture: None,
            moisture_basis: None,
            kindling_mass: None,
            leftover_fuel: None,
            leftover_char: None,
            heater_power: None,
            ambient: None,
            altitude: None,
            block: None,
            operator: None,
            exclude: None,
            note: None,
            extra: BTreeMap::new(),
            line: 0,
            origin: Arc::default(),
        }
    }

    /// The number in a canonical column, SI; `None` for a column of words, a blank cell or an absent column.
    pub fn number(&self, column: &str) -> Option<f64> {
        match column {
            "water" => Some(match self.water {
                Water::Volume(m3) => m3,
                Water::Mass(kg) => kg,
            }),
            "fuel_mass" => self.fuel_mass,
            "kindling_mass" => self.kindling_mass,
            "fuel_moisture" => self.fuel_moisture,
            "leftover_fuel" => self.leftover_fuel,
            "leftover_char" => self.leftover_char,
            "heater_power" => self.heater_power,
            "ambient" => self.ambient,
            "altitude" => self.altitude,
            _ => None,
        }
    }

    /// Level of a factor: a named column or a further one. `None` if the cell is blank or no such column exists.
    pub fn level(&self, factor: &str) -> Option<&str> {
        let named = match factor {
            "stove" => &self.stove,
            "fuel" => &self.fuel,
            "exchanger" => &self.exchanger,
            "vessel" => return Some(&self.vessel),
            "block" => &self.block,
            "operator" => &self.operator,
            "date" => &self.date,
            "kind" => return Some(self.kind.name()),
            _ => return self.extra.get(factor).map(String::as_str).filter(|s| !s.is_empty()),
        };
        named.as_deref()
    }
}
