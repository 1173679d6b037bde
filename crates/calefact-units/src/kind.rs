//! Kinds of quantity.

use serde::Serialize;

/// Kind of quantity; each has one SI unit inside Calefact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub enum Kind {
    /// Celsius temperature.
    Temperature,
    /// Temperature difference.
    TemperatureDifference,
    /// Mass.
    Mass,
    /// Volume.
    Volume,
    /// Length.
    Length,
    /// Area.
    Area,
    /// Time.
    Time,
    /// Power.
    Power,
    /// Energy.
    Energy,
    /// Pressure.
    Pressure,
    /// Mass flow.
    MassFlow,
    /// Volume flow.
    VolumeFlow,
    /// Pure number: fraction, moisture, gas concentration.
    Fraction,
    /// Energy per mass (calorific value).
    SpecificEnergy,
    /// Heat capacity of a body.
    HeatCapacity,
    /// Heat capacity per mass.
    SpecificHeat,
    /// Heat loss coefficient, conductance.
    Conductance,
}

impl Kind {
    /// Symbol of the unit every value of this kind is held in.
    pub const fn si_symbol(self) -> &'static str {
        match self {
            Self::Temperature => "degC",
            Self::TemperatureDifference => "K",
            Self::Mass => "kg",
            Self::Volume => "m3",
            Self::Length => "m",
            Self::Area => "m2",
            Self::Time => "s",
            Self::Power => "W",
            Self::Energy => "J",
            Self::Pressure => "Pa",
            Self::MassFlow => "kg/s",
            Self::VolumeFlow => "m3/s",
            Self::Fraction => "1",
            Self::SpecificEnergy => "J/kg",
            Self::HeatCapacity => "J/K",
            Self::SpecificHeat => "J/(kg K)",
            Self::Conductance => "W/K",
        }
    }

    /// Words for messages: "a temperature".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Temperature => "a temperature",
            Self::TemperatureDifference => "a temperature difference",
            Self::Mass => "a mass",
            Self::Volume => "a volume",
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Time => "a time",
            Self::Power => "a power",
            Self::Energy => "an energy",
            Self::Pressure => "a pressure",
            Self::MassFlow => "a mass flow",
            Self::VolumeFlow => "a volume flow",
            Self::Fraction => "a fraction",
            Self::SpecificEnergy => "an energy per mass",
            Self::HeatCapacity => "a heat capacity",
            Self::SpecificHeat => "a specific heat",
            Self::Conductance => "a conductance",
        }
    }
}
