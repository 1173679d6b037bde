//! The quantities of a row that want more than a number: water, moisture with its basis, what was left of the fuel; and
//! what such a number can be at most.

use super::cells::Cells;
use crate::text::number::Cell;
use crate::{Finding, MoistureBasis, Water};
use calefact_units::Kind;
use std::ops::RangeInclusive;

/// Air at a place where people burn wood, degC.
pub(super) const AMBIENT: RangeInclusive<f64> = -60.0..=60.0;
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
        cells.error("water", "blank-cell", format!("`water` has no number: {text}"), "fill the cell");
        return None;
    }
    if unit.is_none() && bare {
        let message = format!("`water` has no unit: {text}");
        cells.error("water", "missing-unit", message, "write `water [L]` or `water [kg]` in the header");
        return None;
    }
    let by_mass =
        unit.map_or_else(|| calefact_units::parse_quantity(&text, Kind::Mass).is_ok(), |u| u.kind == Kind::Mass);
    let kind = if by_mass { Kind::Mass } else { Kind::Volume };
    let value = cells.value("water", &text, kind, unit)?;
    if value <= 0.0 {
        let message = format!("`water` must be more than nothing, not {text}");
        cells.error("water", "not-positive", message, "correct the cell");
        return None;
    }
    let (most, words) = if by_mass { (MOST_WATER * 1000.0, "100 t") } else { (MOST_WATER, "100 m3") };
    if value > most {
        let message = format!("`water` is {} {}, more than {words}", shown(value), kind.si_symbol());
        cells.error("water", "out-of-range", message, "correct the number or its unit");
        return None;
    }
    Some(if by_mass { Water::Mass(value) } else { Water::Volume(value) })
}

/// The moisture of the fuel and what it is a fraction of.
pub(super) fn moisture(cells: &mut Cells<'_>) -> (Option<f64>, Option<MoistureBasis>) {
    let value = fraction(cells);
    let basis = basis(cells, value.is_some());
    let Some(found) = value else { return (None, basis) };
    let percent = shown(found * 100.0);
    let (message, hint) = match basis {
        Some(MoistureBasis::Wet) if found >= 1.0 => (
            format!("`fuel_moisture` is {percent} % on wet basis, which leaves no wood"),
            "water over total mass is below 100 %; if it is over dry mass, as pin meters show, write `dry`",
        ),
        _ if found > MOST_MOISTURE => (
            format!("`fuel_moisture` is {percent} %, more water than wood can hold (400 % of its dry mass)"),
            "correct the number or its unit",
        ),
        _ => return (value, basis),
    };
    cells.error("fuel_moisture", "out-of-range", message, hint);
    (None, basis)
}

fn fraction(cells: &mut Cells<'_>) -> Option<f64> {
    let value = cells.amount("fuel_moisture", Kind::Fraction)?;
    let bare = cells.text("fuel_moisture").is_some_and(|t| matches!(cells.read(&t), Cell::Number(_)));
    if value > 1.0 && bare && cells.unit("fuel_moisture").is_none() {
        let message = format!("`fuel_moisture` is a fraction where no unit is given, but is {value}");
        cells.error("fuel_moisture", "moisture-above-one", message, "write `fuel_moisture [%]` in the header");
        return None;
    }
    Some(value)
}

fn basis(cells: &mut Cells<'_>, needed: bool) -> Option<MoistureBasis> {
    let Some(text) = cells.text("moisture_basis") else {
        if needed {
            let message = "`fuel_moisture` is given without its basis";
            let hint = "write `wet` (water over total mass) or `dry` (over dry mass; what pin meters show) in `moisture_basis`";
            let finding = Finding::warning_text("moisture-basis-missing", message).hint(hint);
            let finding = cells.at("fuel_moisture", finding).action("fuel energy of this trial left empty");
            cells.findings.push(finding);
        }
        return None;
    };
    match text.to_lowercase().as_str() {
        "wet" => Some(MoistureBasis::Wet),
        "dry" => Some(MoistureBasis::Dry),
        _ => {
            let message = format!("unknown moisture basis `{text}`");
            cells.error("moisture_basis", "unknown-word", message, "write `wet` or `dry`");
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
        let message = format!("`leftover_fuel` is {} kg, but {} kg were put on the fire", shown(left), shown(given));
        let hint = "correct it, or `fuel_mass` and `kindling_mass`; burnt wood goes under `leftover_char`";
        cells.error("leftover_fuel", "leftover-above-fuel", message, hint);
    }
}

/// A number for a message, without the last digits of a conversion.
pub(super) fn shown(value: f64) -> String {
    if value.abs() < 1e9 { format!("{}", (value * 1000.0).round() / 1000.0) } else { format!("{value:.2e}") }
}
