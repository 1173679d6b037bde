//! The inputs of the measurement model, by slot.
//!
//! A slot that a trial cannot fill is NaN; every quantity that needs it comes out NaN and is reported as missing.

use serde::Serialize;

/// One input of the measurement model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[repr(usize)]
pub enum Slot {
    /// Water: volume at the start temperature (m3) or mass (kg).
    Water,
    /// Heat capacity of the vessel, J/K.
    VesselCapacity,
    /// Error of the tank probe at any temperature, in its standard uncertainties.
    TankCommon,
    /// Error of the tank probe at 0 degC, in its standard uncertainties.
    TankLow,
    /// Error of the tank probe at its upper node, in its standard uncertainties.
    TankHigh,
    /// Error of the air probe, K.
    Air,
    /// Random error of the first tank reading, K.
    StartNoise,
    /// Random error of the last tank reading, K.
    EndNoise,
    /// Loss coefficient of the vessel, W/K.
    LossCoefficient,
    /// Fuel mass, kg.
    FuelMass,
    /// Kindling mass, kg.
    Kindling,
    /// Leftover wood, kg.
    LeftoverFuel,
    /// Leftover char, kg.
    LeftoverChar,
    /// Moisture content, wet basis.
    Moisture,
    /// Net calorific value of dry fuel, J/kg.
    NetDry,
    /// Calorific value of char, J/kg.
    CharValue,
    /// Price of the fuel, currency per kg.
    Price,
    /// Mean electric power, W.
    Power,
    /// Error of the mean heat flow over the steady part, W.
    SteadyFlowNoise,
    /// Error of the heating rate from the readings around, K/s.
    RateNoise,
    /// Share of the trial's duration that does not grow with the job, where the log does not show it.
    FixedShare,
    /// Integral of the tank's excess over the air that lies beside the straight lines between few readings, K s.
    Course,
    /// Random error of the fitted loss coefficient, W/K.
    LossNoise,
    /// Measured over metered heat of the rig.
    Rig,
}

impl Slot {
    /// Number of slots.
    pub(crate) const COUNT: usize = Self::Rig as usize + 1;
}
