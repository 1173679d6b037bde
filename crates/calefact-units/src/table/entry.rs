//! An entry of the table of units, and the factors that several families share. Factors are exact unless a comment says
//! otherwise.
//!
//! Source of the factors: NIST SP 811 (2008) appendix B and the definitions behind it (inch 25.4 mm, pound
//! 0.45359237 kg, US gallon 231 in3, imperial gallon 4.54609 L, Btu_IT 1055.05585262 J, standard gravity 9.80665 m/s2).

use crate::{Kind, Unit};

/// A unit and every other way it is written.
#[derive(Debug)]
pub(crate) struct Entry {
    pub(crate) unit: Unit,
    pub(crate) spellings: &'static [&'static str],
}

/// An entry whose scale begins at zero; a whole part of the SI unit is kept as its divisor.
pub(super) const fn unit(kind: Kind, symbol: &'static str, factor: f64, spellings: &'static [&'static str]) -> Entry {
    let parts = (1.0 / factor + 0.5) as u64 as f64;
    let is_part = parts > 1.0 && (parts * factor - 1.0).abs() < 1e-12;
    let line = if is_part { (1.0, 0.0, parts) } else { (factor, 0.0, 1.0) };
    along(kind, symbol, line, spellings)
}

/// An entry by its line: factor, offset and divisor.
pub(super) const fn along(
    kind: Kind,
    symbol: &'static str,
    (factor, offset, divisor): (f64, f64, f64),
    spellings: &'static [&'static str],
) -> Entry {
    Entry { unit: Unit { symbol, kind, factor, offset, divisor }, spellings }
}

/// Pound in kilograms.
pub(super) const LB: f64 = 0.453_592_37;
/// Foot in metres.
pub(super) const FT: f64 = 0.3048;
/// Inch in metres.
pub(super) const INCH: f64 = 0.0254;
/// US gallon in cubic metres (231 in3).
pub(super) const GAL_US: f64 = 3.785_411_784e-3;
/// Imperial gallon in cubic metres.
pub(super) const GAL_IMP: f64 = 4.546_09e-3;
/// International-table British thermal unit in joules.
pub(super) const BTU: f64 = 1_055.055_852_62;
/// Standard gravity in m/s2.
pub(super) const GRAVITY: f64 = 9.806_65;
/// Minute and hour in seconds.
pub(super) const MIN: f64 = 60.0;
pub(super) const HOUR: f64 = 3600.0;
