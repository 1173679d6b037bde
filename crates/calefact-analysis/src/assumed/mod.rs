//! Inputs that nobody wrote down, as ranges: each enters as the limits it is known to lie within.
//!
//! A stated value always wins; a range of the dataset's own (`assume` of `dataset.toml`) wins over the [`table`]; a dataset
//! can switch all ranges off. Here a range is found for an input of a trial; `reduce` makes it an error source like any other.

pub(crate) mod held;
pub(crate) mod owner;
pub(crate) mod table;
pub(crate) mod tolerance;
pub(crate) mod vessel;

use crate::fact::AssumedInput;
use calefact_data::apparatus::{Composition, Fuel};
use calefact_data::{Apparatus, Channel, Readings, RegisterRow, Water};
use calefact_physics::fuel;
use calefact_stats::{Shape, SourceInfo, UncertainValue};
use table::Limits;

/// Density of water that turns a mass into the volume of a vessel, kg/m3.
const WATER_DENSITY: f64 = 1000.0;

/// Whether a dataset lets anything be assumed.
pub(crate) fn allowed(row: &RegisterRow) -> bool {
    !row.origin.assume.nothing
}

/// Range of an input of a trial that is known without its log, SI. Kindling and leftovers are shares of the fuel mass.
pub(crate) fn limits(input: AssumedInput, row: &RegisterRow, apparatus: &Apparatus) -> Option<Limits> {
    use AssumedInput as A;
    if !allowed(row) {
        return None;
    }
    if let Some(own) = row.origin.assume.ranges.get(input.id()) {
        return Some(*own);
    }
    let vessel = apparatus.vessels.get(&row.vessel);
    let fuel = row.fuel.as_ref().and_then(|id| apparatus.fuels.get(id));
    match input {
        A::VesselHeatCapacity => Some(vessel::heat_capacity(vessel, volume(row, apparatus))),
        A::LossCoefficient => Some(vessel::loss_coefficient(vessel, volume(row, apparatus))),
        A::KindlingMass => Some(table::KINDLING),
        A::LeftoverFuel => Some(table::LEFTOVER_FUEL),
        A::LeftoverChar => Some(table::LEFTOVER_CHAR),
        A::FuelMoisture => Some(moisture(row, fuel)),
        A::MoistureBasis => row.fuel_moisture.map(both_bases),
        A::CalorificValue => Some(table::CALORIFIC_VALUE),
        A::CharCalorificValue => Some(table::CHAR_VALUE),
        // From the log, and of instruments.
        _ => None,
    }
}

/// Dry composition of the fuel: its own, else typical of its class, else of wood.
pub(crate) fn composition(row: &RegisterRow, apparatus: &Apparatus) -> Option<Composition> {
    let fuel = row.fuel.as_ref().and_then(|id| apparatus.fuels.get(id));
    let own = fuel.and_then(|f| f.composition.or_else(|| f.class.map(|class| fuel::typical(class).composition())));
    own.or_else(|| allowed(row).then(table::composition))
}

/// Range of the air temperature, degC, from the tank's at the start, where neither log nor register has one.
pub(crate) fn air(row: &RegisterRow, readings: &Readings, start: f64) -> Option<Limits> {
    let logged = readings.channel(Channel::Ambient).is_some_and(|air| air.iter().any(|t| t.is_finite()));
    if logged || row.ambient.is_some() || !allowed(row) {
        return None;
    }
    if let Some(own) = row.origin.assume.ranges.get(AssumedInput::AirTemperature.id()) {
        return Some(*own);
    }
    if start >= table::WARM {
        return Some(table::AIR_BESIDE_WARM);
    }
    let (low, high) = table::AIR_ABOVE_START;
    Some(((start + low).max(table::AIR.0), (start + high).min(table::AIR.1)))
}

/// A value from a range: its middle, with half its width over the square root of three from the input's source.
pub(crate) fn value(input: AssumedInput, row: &RegisterRow, (low, high): Limits) -> UncertainValue {
    UncertainValue::new(middle((low, high)), owner::source(input, row), std_uncertainty((low, high)))
}

/// Middle of a range.
pub(crate) fn middle((low, high): Limits) -> f64 {
    0.5 * (low + high)
}

/// Standard uncertainty of which only limits are known (GUM 4.3.7).
pub(crate) fn std_uncertainty((low, high): Limits) -> f64 {
    0.5 * (high - low) / 3.0_f64.sqrt()
}

/// The source of an assumed input: limits, shared.
pub(crate) fn info() -> SourceInfo {
    SourceInfo { shared: true, dof: f64::INFINITY, shape: Shape::Rectangular }
}

/// Volume of the vessel, m3: its own, at least that of the water.
fn volume(row: &RegisterRow, apparatus: &Apparatus) -> f64 {
    let stated = apparatus.vessels.get(&row.vessel).and_then(|v| v.volume).map_or(0.0, |v| v.value);
    let water = match row.water {
        Water::Volume(m3) => m3,
        Water::Mass(kg) => kg / WATER_DENSITY,
    };
    stated.max(water)
}

/// Moisture on the wet basis, narrowed by a word in the fuel's name or in a further register column.
fn moisture(row: &RegisterRow, fuel: Option<&Fuel>) -> Limits {
    let texts = row.fuel.iter().chain(fuel.map(|f| &f.name)).chain(row.extra.values());
    let words: Vec<String> = texts.flat_map(|t| words(t)).collect();
    let narrowed = table::MOISTURE_WORDS.iter().filter(|(word, _)| words.iter().any(|w| w == word)).map(|(_, l)| *l);
    narrowed.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))).unwrap_or(table::MOISTURE)
}

fn words(text: &str) -> impl Iterator<Item = String> + '_ {
    text.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase)
}

/// A moisture whose basis nobody stated: its readings as dry and as wet basis and what lies between.
fn both_bases(moisture: f64) -> Limits {
    let dry = fuel::wet_from_dry(moisture);
    (dry, if moisture < 1.0 { moisture } else { dry })
}

#[cfg(test)]
mod tests;
