//! What the apparatus says of exchanger and casing, for the heat path.

use calefact_data::apparatus::{Apparatus, Arrangement, Exchanger};
use calefact_data::{Channel, Readings, RegisterRow};
use calefact_physics::casing::Surface;
use calefact_physics::exchanger::tube_area;

/// Emissivity of painted or rusty steel (handbook figure, from memory).
const EMISSIVITY: f64 = 0.9;

/// The exchanger of a trial.
pub(super) fn exchanger<'a>(row: &RegisterRow, apparatus: &'a Apparatus) -> Option<&'a Exchanger> {
    apparatus.exchangers.get(row.exchanger.as_ref()?)
}

/// Arrangement, and whether it had to be assumed (counterflow).
pub(super) fn arrangement(exchanger: Option<&Exchanger>) -> (Arrangement, bool) {
    let stated = exchanger.and_then(|e| e.arrangement);
    (stated.unwrap_or(Arrangement::Counter), stated.is_none())
}

/// Outside area of the tube, m2, from `tube_outside` and `length`.
pub(super) fn area(exchanger: Option<&Exchanger>) -> Option<f64> {
    let build = &exchanger?.build;
    Some(tube_area(*build.get("tube_outside")?, *build.get("length")?)).filter(|a| *a > 0.0)
}

/// Outer surface of the casing, an upright cylinder of `casing_diameter` and `casing_height`, where its temperature was
/// logged.
pub(super) fn casing(exchanger: Option<&Exchanger>, readings: &Readings) -> Option<Surface> {
    readings.channel(Channel::Casing)?;
    let build = &exchanger?.build;
    let (diameter, height) = (*build.get("casing_diameter")?, *build.get("casing_height")?);
    let area = std::f64::consts::PI * diameter * height;
    Some(Surface { height, area, emissivity: EMISSIVITY })
}
