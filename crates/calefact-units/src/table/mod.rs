//! The table of units, one file a family; an entry and the base factors stand in `entry`.

mod ambiguous;
mod bulk;
mod entry;
mod heat;
mod rate;
mod space;
mod thermal;

pub(crate) use ambiguous::AMBIGUOUS;
pub(crate) use entry::Entry;

use crate::Kind;

/// Every kind, in the order other kinds are looked through for a misplaced unit.
pub(crate) const ALL_KINDS: [Kind; 17] = [
    Kind::Temperature,
    Kind::TemperatureDifference,
    Kind::Mass,
    Kind::Volume,
    Kind::Length,
    Kind::Area,
    Kind::Time,
    Kind::Power,
    Kind::Energy,
    Kind::Pressure,
    Kind::MassFlow,
    Kind::VolumeFlow,
    Kind::Fraction,
    Kind::SpecificEnergy,
    Kind::HeatCapacity,
    Kind::SpecificHeat,
    Kind::Conductance,
];

/// The units of a kind, the SI unit first.
pub(crate) const fn entries(kind: Kind) -> &'static [Entry] {
    match kind {
        Kind::Temperature => thermal::TEMPERATURE,
        Kind::TemperatureDifference => thermal::DIFFERENCE,
        Kind::Mass => bulk::MASS,
        Kind::Volume => bulk::VOLUME,
        Kind::Length => space::LENGTH,
        Kind::Area => space::AREA,
        Kind::Time => space::TIME,
        Kind::Power => heat::POWER,
        Kind::Energy => heat::ENERGY,
        Kind::Pressure => rate::PRESSURE,
        Kind::MassFlow => rate::MASS_FLOW,
        Kind::VolumeFlow => rate::VOLUME_FLOW,
        Kind::Fraction => space::FRACTION,
        Kind::SpecificEnergy => heat::SPECIFIC_ENERGY,
        Kind::HeatCapacity => thermal::HEAT_CAPACITY,
        Kind::SpecificHeat => thermal::SPECIFIC_HEAT,
        Kind::Conductance => thermal::CONDUCTANCE,
    }
}
