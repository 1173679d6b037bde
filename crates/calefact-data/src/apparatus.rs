//! The apparatus of a dataset, resolved to SI: stoves, fuels, exchangers, vessels, instruments, site.
//!
//! Plain values; how `dataset.toml` spells them is `dataset_file`'s business.

use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

pub use calefact_physics::exchanger::Arrangement;
pub use calefact_physics::fuel::{Composition, FuelClass};

/// Everything `dataset.toml` describes, by id.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Apparatus {
    /// Title of the dataset.
    pub title: String,
    /// Whether the readings are invented (demo, simulation) and must be labelled so everywhere.
    pub invented: bool,
    /// The site.
    pub site: Site,
    /// Stoves by id.
    pub stoves: BTreeMap<String, Stove>,
    /// Fuels by id.
    pub fuels: BTreeMap<String, Fuel>,
    /// Exchangers by id.
    pub exchangers: BTreeMap<String, Exchanger>,
    /// Vessels by id.
    pub vessels: BTreeMap<String, Vessel>,
    /// Instruments by id.
    pub instruments: BTreeMap<String, Instrument>,
    /// Whether a column without a stated tolerance counts as exact.
    pub assumes_nothing: bool,
}

impl Apparatus {
    /// The currencies that priced fuels state, each once, in order.
    pub fn currencies(&self) -> BTreeSet<String> {
        self.fuels.values().filter(|f| f.price_per_kg.is_some()).filter_map(|f| f.currency.clone()).collect()
    }

    /// The currency that all priced fuels state; `None` if there is none or more than one.
    pub fn currency(&self) -> Option<String> {
        let mut stated = self.fuels.values().filter_map(|f| f.currency.as_ref());
        let first = stated.next()?;
        stated.all(|c| c == first).then(|| first.clone())
    }
}

/// Where the trials were made.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Site {
    /// Name.
    pub name: String,
    /// Height above sea level, m.
    pub altitude_m: Option<f64>,
}

/// A stove.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Stove {
    /// Name for readers.
    pub name: String,
    /// Remark.
    pub note: Option<String>,
}

/// A value with a standard uncertainty the dataset states for it (`"19.1 MJ/kg +- 0.3 MJ/kg"`).
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Stated {
    /// Value, SI.
    pub value: f64,
    /// Stated standard uncertainty, SI; none given is `None`, not zero.
    pub std_uncertainty: Option<f64>,
}

/// A fuel.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Fuel {
    /// Name for readers.
    pub name: String,
    /// Class for typical values: `coniferous`, `broadleaf`, or none.
    pub class: Option<FuelClass>,
    /// Net calorific value of dry matter, J/kg.
    pub net_calorific_value_dry: Option<Stated>,
    /// Net calorific value of the leftover char, J/kg.
    pub char_calorific_value: Option<Stated>,
    /// Composition of dry matter as mass fractions.
    pub composition: Option<Composition>,
    /// Price per kg as bought, in the currency the dataset names.
    pub price_per_kg: Option<f64>,
    /// Currency of the price.
    pub currency: Option<String>,
}

/// A flue exchanger and its build; lengths in m.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Exchanger {
    /// Name for readers.
    pub name: String,
    /// Flow arrangement, if stated.
    pub arrangement: Option<Arrangement>,
    /// Build dimensions by name: `tube_outside`, `tube_inside`, `length`, `coil_diameter`, `pitch`, `housing_gap`, ... (m),
    /// `passes` (count).
    pub build: BTreeMap<String, f64>,
    /// Insulation, in words.
    pub insulation: Option<String>,
}

/// A vessel.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Vessel {
    /// Name for readers.
    pub name: String,
    /// Heat capacity of the vessel itself, J/K.
    pub heat_capacity: Option<Stated>,
    /// Nominal volume, m3.
    pub volume: Option<Stated>,
    /// Loss coefficient stated by the maker or from another test, W/K; used only where no standing-loss trial exists.
    pub loss_coefficient: Option<Stated>,
    /// Its material, if stated.
    pub material: Option<Material>,
    /// Its top, if stated.
    pub top: Option<Top>,
}

/// Material of a vessel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Material {
    /// Plain steel.
    Steel,
    /// Stainless steel.
    Stainless,
    /// Copper.
    Copper,
    /// Aluminium.
    Aluminium,
}

impl Material {
    /// Specific heat near room temperature, J/(kg K). From memory of the table of metallic solids at 300 K in Incropera &
    /// DeWitt, appendix A.1: plain carbon steel, AISI 304, pure copper, pure aluminium.
    pub const fn specific_heat(self) -> f64 {
        match self {
            Self::Steel => 434.0,
            Self::Stainless => 477.0,
            Self::Copper => 385.0,
            Self::Aluminium => 903.0,
        }
    }

    /// Density, kg/m3; same table, from memory.
    pub const fn density(self) -> f64 {
        match self {
            Self::Steel => 7854.0,
            Self::Stainless => 7900.0,
            Self::Copper => 8933.0,
            Self::Aluminium => 2702.0,
        }
    }
}

/// Top of a vessel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Top {
    /// A lid that keeps vapour in.
    Closed,
    /// Water open to the air.
    Open,
}

/// An instrument: its tolerance as its sheet gives it and the columns it reads.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Instrument {
    /// Name for readers.
    pub name: String,
    /// Log and register columns it reads (canonical names).
    pub reads: Vec<String>,
    /// Limits of error from the sheet; all of them act together.
    pub tolerance: Vec<Tolerance>,
    /// Display or logging step, SI unit of the column.
    pub resolution: Option<f64>,
    /// Whether a calibration offset was applied; the offset part of `tolerance` is then the calibration's own.
    pub calibrated: bool,
}

/// One limit of error.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "form", content = "value")]
pub enum Tolerance {
    /// Plus or minus so much, SI unit of the column (difference unit for temperatures). Rectangular.
    Absolute(f64),
    /// Plus or minus this fraction of the reading (of the Celsius value for temperatures). Rectangular.
    OfReading(f64),
    /// The greater of an absolute limit and a fraction of the Celsius reading (IEC 60584 class, ASTM E230 grade).
    GreaterOf(f64, f64),
    /// Absolute limit plus a fraction of the Celsius reading (IEC 60751 class).
    SumOf(f64, f64),
    /// A standard uncertainty stated as such (one standard deviation). Normal.
    Standard(f64),
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_currencies_are_no_currency() {
        let fuel = |c: &str| Fuel { currency: Some(c.into()), ..Fuel::default() };
        let mut apparatus = Apparatus::default();
        assert_eq!(apparatus.currency(), None);
        apparatus.fuels.insert("spruce".into(), fuel("EUR"));
        assert_eq!(apparatus.currency(), Some("EUR".into()));
        apparatus.fuels.insert("beech".into(), fuel("CHF"));
        assert_eq!(apparatus.currency(), None);
    }
}
