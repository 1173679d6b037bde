//! Inputs that were assumed because nobody recorded them, in words.

use super::Wording;
use calefact_analysis::fact::AssumedInput;
use calefact_data::ApparatusKind;

/// The input as a noun, for lists.
pub(crate) const fn noun(input: AssumedInput) -> &'static str {
    match input {
        AssumedInput::VesselHeatCapacity => "heat capacity of the vessel",
        AssumedInput::LossCoefficient => "heat loss of the vessel",
        AssumedInput::AirTemperature => "air temperature",
        AssumedInput::KindlingMass => "kindling",
        AssumedInput::LeftoverFuel => "leftover wood",
        AssumedInput::LeftoverChar => "leftover char",
        AssumedInput::FuelMoisture => "moisture of the fuel",
        AssumedInput::MoistureBasis => "basis of the moisture",
        AssumedInput::CalorificValue => "calorific value of the fuel",
        AssumedInput::CharCalorificValue => "calorific value of the char",
    }
}

/// The source of an error: "leftover wood, assumed (box, pine)".
pub(crate) fn source(w: &Wording<'_>, input: AssumedInput, owner: &str) -> String {
    let owner = match input {
        AssumedInput::VesselHeatCapacity | AssumedInput::LossCoefficient => w.apparatus(ApparatusKind::Vessel, owner),
        AssumedInput::FuelMoisture | AssumedInput::CalorificValue | AssumedInput::CharCalorificValue => {
            w.apparatus(ApparatusKind::Fuel, owner)
        }
        _ => owner.into(),
    };
    if owner.is_empty() { format!("{}, assumed", noun(input)) } else { format!("{}, assumed ({owner})", noun(input)) }
}
