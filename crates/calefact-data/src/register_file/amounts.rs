//! The quantities of a row that want more than a number: water, moisture with its basis, what was left of the fuel; and
//! what such a number can be at most.

use super::cells::Cells;
use crate::fact::RegisterFact;
use crate::text::number::Cell;
use crate::text::sniff::number_part;
use crate::toml_source::Range;
use crate::{Finding, MoistureBasis, Water};
use calefact_units::{Kind, Unit};

/// Air at a place where people burn wood, degC.
pub(super) const AMBIENT: Range = Range::Within(-60.0, 60.0);
/// Most water, m3; by mass as many tonnes.
const MOST_WATER: f64 = 100.0;
/// Water over dry mass of the wettest wood: green wood of the lightest kinds comes near it.
const MOST_MOISTURE: f64 = 4.0;

/// The water in the vessel, by volume or by mass.
pub(super) fn water(cells: &mut Cells<'_>) -> Option<Water> {
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
    let own_unit = || Unit::parse(text[number_part(&text).len()..].trim(), Kind::Mass).is_ok();
    let by_mass = unit.map_or_else(own_unit, |u| u.kind == Kind::Mass);
    let kind = if by_mass { Kind::Mass } else { Kind::Volume };
    let value = cells.value("water", &text, kind, unit)?;
    if value <= 0.0 {
        cells.error("water", RegisterFact::NoWater { cell: text });
        return None;
    }
    let range = Range::Within(0.0, if by_mass { MOST_WATER * 1000.0 } else { MOST_WATER });
    if !range.holds(value) {
        cells.error("water", RegisterFact::OutOfRange { column: "water".into(), value, kind, range });
        return None;
    }
    Some(if by_mass { Water::Mass(value) } else { Water::Volume(value) })
}

/// The moisture of the fuel and what it is a fraction of.
pub(super) fn moisture(cells: &mut Cells<'_>) -> (Option<f64>, Option<MoistureBasis>) {
    let value = fraction(cells);
    let basis = basis(cells, value.is_some());
    let Some(moisture) = value else { return (None, basis) };
    let fact = match basis {
        Some(MoistureBasis::Wet) if moisture >= 1.0 => RegisterFact::NoWood { moisture },
        _ if moisture > MOST_MOISTURE => RegisterFact::TooWet { moisture },
        _ => return (value, basis),
    };
    cells.error("fuel_moisture", fact);
    (None, basis)
}

fn fraction(cells: &mut Cells<'_>) -> Option<f64> {
    let value = cells.amount("fuel_moisture", Kind::Fraction)?;
    let bare = cells.text("fuel_moisture").is_some_and(|t| matches!(cells.read(&t), Cell::Number(_)));
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
