//! The invented world: apparatus, what each level does to the efficiency, instruments.

use super::instrument::InstrumentModel;
use calefact_data::apparatus::{Apparatus, Exchanger, Fuel, Site, Stove, Vessel};

/// Everything that stays the same from trial to trial.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Scenario {
    /// Title of the dataset.
    pub(crate) title: String,
    /// The site.
    pub(crate) site: Site,
    /// The vessel, one for all trials.
    pub(crate) vessel: VesselModel,
    /// Stoves; a plan names them by index.
    pub(crate) stoves: Vec<StoveModel>,
    /// Fuels.
    pub(crate) fuels: Vec<FuelModel>,
    /// Exchangers.
    pub(crate) exchangers: Vec<ExchangerModel>,
    /// Effects of levels of further register columns on the efficiency.
    pub(crate) effects: Vec<LevelEffect>,
    /// Effects of numeric register columns on the efficiency.
    pub(crate) trends: Vec<Trend>,
    /// Standard deviation of the efficiency between days (blocks).
    pub(crate) day_sd: f64,
    /// Scale of all scatter between burns: 1 as stated, 0 for the expected burn.
    pub(crate) scatter: f64,
    /// Instruments.
    pub(crate) instruments: Vec<InstrumentModel>,
    /// Tank temperature at which the true heating rate is given, degC.
    pub(crate) heating_rate_at: f64,
}

/// The vessel. The heat balance uses the true values; the entry states what its owner believes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct VesselModel {
    /// Id.
    pub(crate) id: String,
    /// Entry of the dataset.
    pub(crate) entry: Vessel,
    /// True loss coefficient, W/K.
    pub(crate) loss_coefficient: f64,
}

/// A stove.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StoveModel {
    /// Id.
    pub(crate) id: String,
    /// Entry of the dataset.
    pub(crate) entry: Stove,
    /// Thermal efficiency (net, credited) with effects of nought.
    pub(crate) efficiency: f64,
    /// Standard deviation of the efficiency between burns.
    pub(crate) efficiency_sd: f64,
    /// Steady burn rate, kg of wood as fired per second.
    pub(crate) burn_rate: f64,
    /// Relative standard deviation of the burn rate and of the air ratio between burns.
    pub(crate) rate_sd: f64,
    /// Air ratio of the steady fire.
    pub(crate) air_ratio: f64,
    /// Share of the steady air that flows with no fire.
    pub(crate) leak: f64,
    /// Light-up ramp, s.
    pub(crate) ramp_s: f64,
    /// Burn-down, s.
    pub(crate) down_s: f64,
}

/// A fuel. The true calorific value is drawn once about the stated one, with its stated uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct FuelModel {
    /// Id.
    pub(crate) id: String,
    /// Entry of the dataset.
    pub(crate) entry: Fuel,
    /// Added to the efficiency.
    pub(crate) efficiency: f64,
}

/// An exchanger.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ExchangerModel {
    /// Id.
    pub(crate) id: String,
    /// Entry of the dataset.
    pub(crate) entry: Exchanger,
    /// Added to the efficiency.
    pub(crate) efficiency: f64,
    /// Conductance UA at `gas_flow`, W/K.
    pub(crate) conductance: f64,
    /// Gas flow of that conductance, kg/s.
    pub(crate) gas_flow: f64,
    /// Exponent of the conductance in the gas flow.
    pub(crate) exponent: f64,
    /// Water flow, kg/s.
    pub(crate) coil_flow: f64,
    /// Time constant of the hot metal between fire and water, s: delay at the start, after-heat at the end.
    pub(crate) lag_s: f64,
}

impl ExchangerModel {
    /// Conductance at a gas flow, W/K: `UA (m/m0)^n`.
    pub(crate) fn conductance_at(&self, gas_flow: f64) -> f64 {
        self.conductance * libm::pow(gas_flow / self.gas_flow, self.exponent)
    }
}

/// Effect of a level on the efficiency.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LevelEffect {
    /// Register column.
    pub(crate) column: String,
    /// Level.
    pub(crate) level: String,
    /// Added to the efficiency.
    pub(crate) efficiency: f64,
}

/// Effect of a numeric column on the efficiency: `slope (x - centre)`.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Trend {
    /// Register column.
    pub(crate) column: String,
    /// Value with no effect.
    pub(crate) centre: f64,
    /// Efficiency per unit of the column.
    pub(crate) slope: f64,
}

impl Scenario {
    /// The same world with no scatter between burns and days: its trials are the expected ones.
    #[must_use]
    pub(crate) fn expected(&self) -> Self {
        Self { scatter: 0.0, ..self.clone() }
    }

    /// What the dataset says of the apparatus.
    pub(crate) fn apparatus(&self) -> Apparatus {
        Apparatus {
            title: self.title.clone(),
            invented: true,
            site: self.site.clone(),
            stoves: self.stoves.iter().map(|s| (s.id.clone(), s.entry.clone())).collect(),
            fuels: self.fuels.iter().map(|f| (f.id.clone(), f.entry.clone())).collect(),
            exchangers: self.exchangers.iter().map(|x| (x.id.clone(), x.entry.clone())).collect(),
            vessels: [(self.vessel.id.clone(), self.vessel.entry.clone())].into(),
            instruments: self.instruments.iter().map(|i| (i.id.clone(), i.entry.clone())).collect(),
            assumes_nothing: false,
        }
    }
}
