//! Values with a stated standard uncertainty, in one text or under two keys.

use super::limits::Limits;
use crate::apparatus::Stated;
use crate::toml_source::{Item, Table};
use calefact_units::{Kind, Unit, UnitError, parse_quantity};

/// `key = "19.1 MJ/kg"` with `key_uncertainty = "0.3 MJ/kg"`, or `key = "19.1 MJ/kg +- 0.3 MJ/kg"`. The uncertainty is
/// one standard deviation. A value beyond the limits is an error.
pub(super) fn stated(
    table: &Table<'_>,
    key: &'static str,
    uncertainty_key: &'static str,
    kind: Kind,
    limits: Limits,
) -> Option<Stated> {
    let beside = table.optional(uncertainty_key).and_then(|i| spread(&i, i.as_str(), kind));
    let item = table.optional(key)?;
    let Some((value, inline)) = item.as_str().and_then(split_spread) else {
        return limits.quantity(&item, kind).map(|value| Stated { value, std_uncertainty: beside });
    };
    let value = parse_quantity(value, kind).map_err(|e| item.unit_error(&e)).ok()?;
    let value = limits.keep(&item, value)?;
    Some(Stated { value, std_uncertainty: spread(&item, Some(inline), kind).or(beside) })
}

fn split_spread(text: &str) -> Option<(&str, &str)> {
    ["+-", "+/-", "\u{b1}"].iter().find_map(|sign| text.split_once(sign)).map(|(a, b)| (a.trim(), b.trim()))
}

fn spread(item: &Item<'_>, text: Option<&str>, kind: Kind) -> Option<f64> {
    let Some(text) = text else { return item.quantity(kind) };
    let value = parse_spread(text, kind).map_err(|e| item.unit_error(&e)).ok()?;
    if value < 0.0 {
        item.error("bad-value", "an uncertainty cannot be negative", "");
        return None;
    }
    Some(value)
}

/// A width such as `"0.5 degC"`: number and unit, without the unit's offset, as differences of temperature want it.
pub(super) fn parse_spread(text: &str, kind: Kind) -> Result<f64, UnitError> {
    let text = text.trim();
    let end = text.find(|c: char| !matches!(c, '0'..='9' | '.' | '-' | '+')).unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let value: f64 = number.parse().map_err(|_| UnitError::NoNumber { text: text.into() })?;
    let wide = |k| Unit::parse(unit.trim(), k).map(|u| u.width_to_si(value));
    match kind {
        Kind::Temperature => wide(Kind::TemperatureDifference).or_else(|_| wide(kind)),
        // The width of a volume flow of water, taken at 1000 kg/m3: a width needs no better.
        Kind::MassFlow => wide(kind).or_else(|e| wide(Kind::VolumeFlow).map(|v| v * 1000.0).map_err(|_| e)),
        _ => wide(kind),
    }
}
