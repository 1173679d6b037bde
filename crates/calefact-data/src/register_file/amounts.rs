//! The quantities of a row that want more than a number: water, moisture with its basis, what was left of the fuel; and
//! what such a number can be at most.

use super::cells::Cells;
use super::header;
use crate::fact::RegisterFact;
use crate::limits::MOISTURE;
use crate::text::number::Cell;
use crate::text::sniff::number_part;
use crate::toml_source::Range;
use crate::{DefaultCell, Finding, MoistureBasis, Severity, TrialKind, Water};
use calefact_units::Kind;

/// Most water that a vessel takes, as a part of its volume: a drum of nominal 200 L holds some 5 % more to the brim.
const BRIM: f64 = 1.1;
/// Beyond this part of it, one of the two numbers is wrong.
const OVERFLOW: f64 = 1.25;
/// Less water than this part of its volume hardly covers the bottom of a vessel.
const PUDDLE: f64 = 0.03;

/// The water in the vessel, by volume or by mass.
pub(super) fn water(cells: &mut Cells<'_>) -> Option<Water> {
    if let (None, Some(DefaultCell::Water(water))) = (cells.written("water"), cells.default_of("water")) {
        let water = *water;
        let (kind, value) = match water {
            Water::Volume(m3) => (Kind::Volume, m3),
            Water::Mass(kg) => (Kind::Mass, kg),
        };
        return cells.limited("water", kind, value).map(|_| water);
    }
    let text = cells.required("water")?;
    if cells.is_spoilt("water") {
        return None;
    }
    let unit = cells.unit("water");
    let bare = text.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b',' | b'-' | b' '));
    if cells.read(&text) == Cell::Blank {
        cells.error("water", RegisterFact::Blank { column: "water".into() });
        return None;
    }
    if unit.is_none() && bare {
        cells.error("water", RegisterFact::WaterUnit { cell: text });
        return None;
    }
    let own_unit = || header::water_unit(text[number_part(&text).len()..].trim()).ok();
    let by_mass = unit.or_else(own_unit).is_some_and(|u| u.kind == Kind::Mass);
    let kind = if by_mass { Kind::Mass } else { Kind::Volume };
    let value = cells.value("water", &text, kind, unit)?;
    if value <= 0.0 {
        cells.error("water", RegisterFact::NoWater { cell: text });
        return None;
    }
    let value = cells.limited("water", kind, value)?;
    Some(if by_mass { Water::Mass(value) } else { Water::Volume(value) })
}

/// The moisture of the fuel and what it is a fraction of.
pub(super) fn moisture(cells: &mut Cells<'_>) -> (Option<f64>, Option<MoistureBasis>) {
    let value = fraction(cells);
    let basis = basis(cells, value.is_some());
    let Some(moisture) = value else { return (None, basis) };
    let fact = match basis {
        Some(MoistureBasis::Wet) if moisture >= 1.0 => RegisterFact::NoWood { moisture },
        _ if moisture > *MOISTURE.possible.end() => RegisterFact::TooWet { moisture },
        _ => {
            check_fraction(cells, moisture);
            return (value, basis);
        }
    };
    cells.error("fuel_moisture", fact);
    (None, basis)
}

/// Warns of a moisture that is not plausible; one below 1 % is more likely a fraction.
fn check_fraction(cells: &mut Cells<'_>, moisture: f64) {
    if moisture < 0.01 && MOISTURE.plausible.contains(&(moisture * 100.0)) {
        let finding = cells.at("fuel_moisture", Finding::warning(RegisterFact::MoistureAsFraction { moisture }));
        cells.findings.push(finding);
    } else {
        cells.limited("fuel_moisture", Kind::Fraction, moisture);
    }
}

/// The power of a reference heater; one without power heats nothing.
pub(super) fn heater_power(cells: &mut Cells<'_>, kind: Option<TrialKind>) -> Option<f64> {
    let power = cells.measured("heater_power", Kind::Power)?;
    if power == 0.0 && kind == Some(TrialKind::ReferenceHeater) {
        let (column, range) = ("heater_power".into(), Range::Positive);
        cells.error("heater_power", RegisterFact::OutOfRange { column, value: power, kind: Kind::Power, range });
    }
    Some(power)
}

/// Compares the water with the volume of its vessel, m3; a litre of water is taken as a kilogram.
pub(super) fn check_vessel(cells: &mut Cells<'_>, water: Water, vessel_m3: f64) {
    let water_m3 = match water {
        Water::Volume(m3) => m3,
        Water::Mass(kg) => kg / 1000.0,
    };
    let part = water_m3 / vessel_m3;
    if !(PUDDLE..=BRIM).contains(&part) {
        let refused = part > OVERFLOW;
        let severity = if refused { Severity::Error } else { Severity::Warning };
        let fact = RegisterFact::WaterInVessel { water_m3, vessel_m3, refused };
        let finding = cells.at("water", Finding::new(severity, fact));
        cells.findings.push(finding);
    }
}

fn fraction(cells: &mut Cells<'_>) -> Option<f64> {
    let value = cells.amount("fuel_moisture", Kind::Fraction)?;
    let bare = cells.written("fuel_moisture").is_some_and(|t| matches!(cells.read(&t), Cell::Number(_)));
    if value > 1.0 && bare && cells.unit("fuel_moisture").is_none() {
        cells.error("fuel_moisture", RegisterFact::MoistureAboveOne { value });
        return None;
    }
    Some(value)
}

fn basis(cells: &mut Cells<'_>, needed: bool) -> Option<MoistureBasis> {
    let Some(text) = cells.text("moisture_basis") else {
        if needed {
            let finding = cells.at("fuel_moisture", Finding::warning(RegisterFact::NoMoistureBasis));
            cells.findings.push(finding);
        }
        return None;
    };
    match text.to_lowercase().as_str() {
        "wet" => Some(MoistureBasis::Wet),
        "dry" => Some(MoistureBasis::Dry),
        _ => {
            cells.error("moisture_basis", RegisterFact::MoistureBasis { cell: text });
            None
        }
    }
}

/// Reports more wood taken back than was put on the fire.
pub(super) fn check_leftover(cells: &mut Cells<'_>, fuel: Option<f64>, kindling: Option<f64>, left: Option<f64>) {
    // Kindling that was not weighed may be any amount.
    let (Some(fuel), Some(kindling), Some(left)) = (fuel, kindling, left) else { return };
    let given = fuel + kindling;
    // The sum may be rounded; what was weighed out and in is not that exact.
    if left > given * (1.0 + 1e-9) {
        cells.error("leftover_fuel", RegisterFact::LeftoverAboveFuel { left_kg: left, given_kg: given });
    }
}
