//! Quantities with their standard uncertainty, as texts.

use super::Range;
use crate::apparatus::Stated;
use crate::fact::Misfit;
use calefact_units::{Kind, Unit, UnitError, parse_quantity};

/// Signs between a value and its uncertainty.
pub(crate) const PLUS_MINUS: [&str; 3] = ["+-", "+/-", "\u{b1}"];

/// A quantity in SI, if it is in its range.
pub(super) fn quantity(text: &str, kind: Kind, range: Range) -> Result<f64, Misfit> {
    let value = parse_quantity(text, kind).map_err(|error| unit(text, error))?;
    if range.holds(value) { Ok(value) } else { Err(Misfit::Range { range, kind: Some(kind) }) }
}

/// `"19.1 MJ/kg"` or `"19.1 MJ/kg +- 0.3 MJ/kg"`; the uncertainty is one standard deviation.
pub(super) fn stated(text: &str, kind: Kind, range: Range) -> Result<Stated, Misfit> {
    let parts = PLUS_MINUS.iter().find_map(|sign| text.split_once(sign));
    let (value, width_text) = parts.map_or((text, None), |(value, width)| (value.trim(), Some(width.trim())));
    Ok(Stated {
        value: quantity(value, kind, range)?,
        std_uncertainty: width_text.map(|text| width(text, kind)).transpose()?,
    })
}

/// A standard uncertainty in SI.
pub(super) fn width(text: &str, kind: Kind) -> Result<f64, Misfit> {
    let value = parse_width(text, kind).map_err(|error| unit(text, error))?;
    if value < 0.0 { Err(Misfit::NegativeUncertainty) } else { Ok(value) }
}

fn unit(text: &str, error: UnitError) -> Misfit {
    Misfit::Unit { written: text.into(), error }
}

/// A width such as `"0.5 degC"`: number and unit, without the unit's offset, as differences of temperature want it.
pub(crate) fn parse_width(text: &str, kind: Kind) -> Result<f64, UnitError> {
    let text = text.trim();
    let end = text.find(|c: char| !matches!(c, '0'..='9' | '.' | '-' | '+')).unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let value: f64 = number.parse().map_err(|_| UnitError::NoNumber { text: text.into() })?;
    let in_kind = |k| Unit::parse(unit.trim(), k).map(|u| u.width_to_si(value));
    match kind {
        Kind::Temperature => in_kind(Kind::TemperatureDifference).or_else(|_| in_kind(kind)),
        // The width of a volume flow of water, taken at 1000 kg/m3: a width needs no better.
        Kind::MassFlow => in_kind(kind).or_else(|e| in_kind(Kind::VolumeFlow).map(|v| v * 1000.0).map_err(|_| e)),
        _ => in_kind(kind),
    }
}
