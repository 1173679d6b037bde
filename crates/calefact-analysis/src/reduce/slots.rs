//! The inputs of the measurement model, by slot.
//!
//! A slot that a trial cannot fill is NaN; every quantity that needs it comes out NaN and is reported as missing, with the
//! words given here.

/// One input of the measurement model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(usize)]
pub enum Slot {
    /// Water: volume at the start temperature (m3) or mass (kg).
    Water,
    /// Heat capacity of the vessel, J/K.
    VesselCapacity,
    /// Error of the tank probe at 0 degC, K.
    TankLow,
    /// Error of the tank probe at its upper node, K.
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
    /// Random error of the fitted heat flow, W.
    LineNoise,
    /// Random error of the fitted delay, s.
    DelayNoise,
    /// Random error of a locally fitted heating rate, K/s.
    RateNoise,
    /// Random error of the fitted loss coefficient, W/K.
    LossNoise,
    /// Measured over metered heat of the rig.
    Rig,
}

impl Slot {
    /// Number of slots.
    pub const COUNT: usize = Self::Rig as usize + 1;

    /// What is lacking when the slot is empty, in words.
    pub const fn lack(self) -> &'static str {
        match self {
            Self::Water => "the amount of water is not stated",
            Self::VesselCapacity => {
                "the vessel's own heat capacity is not stated (write `heat_capacity`, or `mass` and `material`)"
            }
            Self::TankLow | Self::TankHigh | Self::StartNoise | Self::EndNoise => "no tank temperature",
            Self::Air => "the air temperature is neither in the log nor in the register",
            Self::LossCoefficient => "no standing-loss trial of this vessel, and none stated for it",
            Self::FuelMass => "`fuel_mass` is blank",
            Self::Kindling => "`kindling_mass` is blank (write 0 if there was none)",
            Self::LeftoverFuel => "`leftover_fuel` is blank (write 0 if nothing was left)",
            Self::LeftoverChar => "`leftover_char` is blank (write 0 if nothing was left)",
            Self::Moisture => "`fuel_moisture` or its basis is blank",
            Self::NetDry => "the fuel's net calorific value is not stated and it has no class",
            Self::CharValue => "the calorific value of char is not known",
            Self::Price => "the fuel has no price",
            Self::Power => "neither `heater_power` nor a `power` column",
            Self::LineNoise | Self::DelayNoise => "no heat line could be fitted",
            Self::RateNoise => "the tank never rises through the temperature at which the rate is stated",
            Self::LossNoise => "no cooling curve could be fitted",
            Self::Rig => "no reference-heater trial",
        }
    }
}
