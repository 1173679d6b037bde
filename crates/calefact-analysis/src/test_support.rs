//! A register row for the crate's own tests.

use calefact_data::{MoistureBasis, RegisterRow, TrialKind, Water};
use std::collections::BTreeMap;

/// A trial `t1` with 160 kg of water in a vessel `tank`, 8 kg of `wood` at 20 % (wet basis) under an exchanger `coil`,
/// nothing left over, in air of 15 degC.
pub(crate) fn row(kind: TrialKind) -> RegisterRow {
    RegisterRow {
        trial: "t1".into(),
        kind,
        date: None,
        log: "logs/t1.csv".into(),
        stove: Some("box".into()),
        fuel: Some("wood".into()),
        exchanger: Some("coil".into()),
        vessel: "tank".into(),
        water: Water::Mass(160.0),
        fuel_mass: Some(8.0),
        fuel_moisture: Some(0.20),
        moisture_basis: Some(MoistureBasis::Wet),
        kindling_mass: Some(0.0),
        leftover_fuel: Some(0.0),
        leftover_char: Some(0.0),
        heater_power: None,
        ambient: Some(15.0),
        altitude: None,
        block: None,
        operator: None,
        exclude: None,
        note: None,
        extra: BTreeMap::new(),
        line: 2,
    }
}
