//! The law of a burn, as forecasts ask for it, and what the burn reached.

use calefact_stats::UncertainValue;
use serde::Serialize;

/// A parameter of the law of a burn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LawParameter {
    /// Natural logarithm of the heat flow while the fire is steady, in W.
    Power,
    /// Time that light-up, burn-down and after-heat add to the steady fire, s.
    FixedTime,
    /// Natural logarithm of the wood burnt in a second of the steady fire, in kg/s.
    BurnRate,
    /// Moisture of the wood, wet basis.
    Moisture,
    /// Heat capacity of the vessel, J/K.
    VesselCapacity,
    /// Loss coefficient of the vessel, W/K.
    VesselLoss,
}

impl LawParameter {
    /// All parameters: first those of the fire, then those of the vessel.
    pub const ALL: [Self; 6] =
        [Self::Power, Self::FixedTime, Self::BurnRate, Self::Moisture, Self::VesselCapacity, Self::VesselLoss];
    /// Number of parameters of the fire.
    pub const OF_FIRE: usize = 4;
}

/// The law of a burn.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrialLaw {
    /// Values with their parts by source; NaN for burn rate and moisture where they are not known.
    #[serde(skip)]
    pub parameters: [UncertainValue; LawParameter::ALL.len()],
    /// Extent of the burn.
    pub extent: TrialExtent,
}

/// Extent of a burn, and its wood.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TrialExtent {
    /// Water, m3.
    pub water_m3: f64,
    /// Heat stored in water and vessel, J.
    pub stored: f64,
    /// Tank at the end, degC.
    pub end_c: f64,
    /// Duration, s.
    pub duration_s: f64,
    /// Largest load of wood put on at once, kg; NaN where no wood was weighed.
    pub load_kg: f64,
    /// Kindling, kg; NaN where it is not known.
    pub kindling_kg: f64,
    /// Net calorific value of the dry fuel, J/kg; NaN where it is not known.
    pub net_dry: f64,
    /// Price, currency per kg; NaN where none is stated.
    pub price: f64,
}
