//! The one table of limits that a number of a dataset can have. A value beyond `possible` is refused, one beyond `plausible`
//! gets a warning. Limits that need two numbers (water in a vessel, wood taken back) stand where both are known.
//!
//! All values are SI (degC for temperatures) and, unless a source is named, common practice without one: chosen wide, for
//! anything from a kettle to a heat store of a few houses.

use crate::toml_source::Range;
use std::ops::RangeInclusive;

/// Limits of a quantity, in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Values that can be true.
    pub possible: RangeInclusive<f64>,
    /// Values that need no second look.
    pub plausible: RangeInclusive<f64>,
}

const fn limit(possible: RangeInclusive<f64>, plausible: RangeInclusive<f64>) -> Limit {
    Limit { possible, plausible }
}

impl Limit {
    /// The possible values.
    pub(crate) const fn range(&self) -> Range {
        Range::Within(*self.possible.start(), *self.possible.end())
    }

    /// The possible values without the first and the last.
    pub(crate) const fn range_above(&self) -> Range {
        Range::Between(*self.possible.start(), *self.possible.end())
    }
}

/// Water in a vessel or a coil. Below zero it is ice; above 100 degC it boils, but a probe may read high; at 200 degC it
/// would stand under 15 bar.
pub(crate) const WATER_TEMPERATURE: Limit = limit(-40.0..=200.0, -2.0..=110.0);
/// Air where people burn wood; the widest weather on record is -89 to 57 degC, few work outside below -35 degC.
pub(crate) const AIR: Limit = limit(-60.0..=60.0, -35.0..=45.0);
/// A wood fire's gas stays below 1300 degC, and a type K thermocouple ends at 1372 degC (IEC 60584-1, from memory).
pub(crate) const FLUE: Limit = limit(-60.0..=1400.0, -35.0..=1300.0);
/// Sheet metal around a flue glows from 500 degC on.
pub(crate) const CASING: Limit = limit(-60.0..=1400.0, -35.0..=600.0);
/// Water flow, kg/s: the zero of a meter may lie a little below zero; 3 kg/s is a pump for a house.
pub(crate) const FLOW: Limit = limit(-0.1..=100.0, -0.01..=3.0);
/// Electric power of a log, W: a three-phase connection of a house gives some 40 kW.
pub(crate) const POWER: Limit = limit(-10.0..=1e6, -10.0..=50e3);
/// Wood put on at once, kg.
pub(crate) const FUEL_ADDED: Limit = limit(0.0..=1000.0, 0.0..=100.0);
/// Dry air holds 20.95 % oxygen by volume; a meter may show a little more, or a little less than zero.
pub(crate) const OXYGEN: Limit = limit(-0.01..=0.3, -0.01..=0.22);
/// Flue gas of wood holds at most about 20.3 % carbon dioxide, where no air is left over.
pub(crate) const CARBON_DIOXIDE: Limit = limit(-0.01..=0.3, -0.01..=0.21);
/// Carbon monoxide: a smouldering stove gives a few percent; producer gas has a quarter.
pub(crate) const CARBON_MONOXIDE: Limit = limit(-0.01..=0.3, -0.01..=0.15);

/// Fuel of a trial, kg: 2 t of wood would bring 40 m3 of water to the boil.
const FUEL_MASS: Limit = limit(0.0..=2000.0, 0.02..=200.0);
/// Kindling, kg.
const KINDLING: Limit = limit(0.0..=200.0, 0.0..=15.0);
/// Wood taken back, kg; not more than was put on, which is checked apart.
const LEFTOVER_FUEL: Limit = limit(0.0..=2000.0, 0.0..=100.0);
/// Char taken back, kg: a quarter of the wood at most.
const LEFTOVER_CHAR: Limit = limit(0.0..=500.0, 0.0..=50.0);
/// Reference heater, W: from a lamp to the largest immersion heaters.
const HEATER: Limit = limit(0.0..=1e6, 5.0..=50e3);
/// Land that people live on, m: from the shore of the Dead Sea to above the highest camps.
pub(crate) const ALTITUDE: Limit = limit(-430.0..=9000.0, -430.0..=5500.0);
/// Water, m3: from a cup to a store for several houses.
pub(crate) const VOLUME: Limit = limit(0.0..=100.0, 2e-4..=20.0);
/// Water, kg.
const WATER_MASS: Limit = limit(0.0..=1e5, 0.2..=2e4);
/// Moisture: kiln-dried wood has 4 % or more; green wood of the lightest kinds comes near 4 times its dry mass in water.
pub(crate) const MOISTURE: Limit = limit(0.0..=4.0, 0.02..=2.0);

/// Empty vessel, kg: a store of 20 t of water weighs less.
pub(crate) const VESSEL_MASS: Limit = limit(0.0..=2e4, 0.05..=3000.0);
/// Heat capacity of an empty vessel, J/K: that of 20 t of aluminium; zero if it is counted with the water.
pub(crate) const VESSEL_CAPACITY: Limit = limit(0.0..=2e7, 0.0..=2e6);
/// Loss of a vessel, W/K: an open pool of 100 m2 loses some 50 W/(m2 K).
pub(crate) const VESSEL_LOSS: Limit = limit(0.0..=5000.0, 0.0..=500.0);

/// Limits of a column of the register; those of `water` as a volume or as a mass.
pub(crate) fn column_limit(name: &str, by_mass: bool) -> Option<&'static Limit> {
    Some(match name {
        "fuel_mass" => &FUEL_MASS,
        "kindling_mass" => &KINDLING,
        "leftover_fuel" => &LEFTOVER_FUEL,
        "leftover_char" => &LEFTOVER_CHAR,
        "heater_power" => &HEATER,
        "ambient" => &AIR,
        "altitude" => &ALTITUDE,
        "fuel_moisture" => &MOISTURE,
        "water" if by_mass => &WATER_MASS,
        "water" => &VOLUME,
        _ => return None,
    })
}
