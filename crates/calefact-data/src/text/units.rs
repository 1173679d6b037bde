//! Codes, messages and hints for units that cannot be read, the same for every kind of file.

use calefact_units::{Kind, UnitError, symbols};

/// Most units that a hint lists.
const LISTED: usize = 8;

/// The kind of a quantity written without a unit, if that is the error.
fn missing(error: &UnitError) -> Option<Kind> {
    match error {
        UnitError::Unknown { text, kind, .. } if text.trim().is_empty() => Some(*kind),
        _ => None,
    }
}

/// Whether the error is that no unit stands there.
pub(crate) fn is_missing(error: &UnitError) -> bool {
    missing(error).is_some()
}

/// Code of the finding.
pub(crate) fn code(error: &UnitError) -> &'static str {
    match error {
        UnitError::Unknown { .. } if is_missing(error) => "missing-unit",
        UnitError::Unknown { .. } => "unknown-unit",
        UnitError::Ambiguous { .. } => "ambiguous-unit",
        UnitError::WrongKind { .. } => "wrong-kind-of-unit",
        UnitError::NoNumber { .. } | UnitError::Comma { .. } => "not-a-quantity",
    }
}

/// Message of the finding on a quantity as written.
pub(crate) fn message(error: &UnitError, written: &str) -> String {
    match missing(error) {
        Some(kind) => format!("`{written}` has no unit, but {} is wanted here", kind.words()),
        None => error.to_string(),
    }
}

/// What the person can do, where the message does not say it.
pub(crate) fn hint(error: &UnitError) -> Option<String> {
    if let Some(kind) = missing(error) {
        return Some(format!("write the unit after the number, as in \"{}\"", example(kind)));
    }
    match error {
        UnitError::Unknown { nearest: Some(near), .. } => Some(format!("did you mean `{near}`?")),
        UnitError::Unknown { kind, .. } => {
            let known: Vec<String> = symbols(*kind).take(LISTED).map(|s| format!("`{s}`")).collect();
            Some(format!("units of {} are {}", kind.words(), known.join(", ")))
        }
        _ => None,
    }
}

/// How a quantity of a kind is written.
pub(crate) const fn example(kind: Kind) -> &'static str {
    match kind {
        Kind::Temperature => "60 degC",
        Kind::TemperatureDifference => "0.5 K",
        Kind::Mass => "3.2 kg",
        Kind::Volume => "160 L",
        Kind::Length => "15 mm",
        Kind::Area => "0.4 m2",
        Kind::Time => "40 min",
        Kind::Power => "6 kW",
        Kind::Energy => "13.5 MJ",
        Kind::Pressure => "1 bar",
        Kind::MassFlow => "0.05 kg/s",
        Kind::VolumeFlow => "3.4 L/min",
        Kind::Fraction => "20 %",
        Kind::SpecificEnergy => "19.1 MJ/kg",
        Kind::HeatCapacity => "12 kJ/K",
        Kind::SpecificHeat => "0.49 kJ/(kg K)",
        Kind::Conductance => "3 W/K",
    }
}
