//! A register row for the crate's own tests.

use calefact_data::{MoistureBasis, RegisterRow, TrialKind, Water};

/// A trial `t1` with 160 kg of water in a vessel `tank`, 8 kg of `wood` at 20 % (wet basis) under an exchanger `coil`,
/// nothing left over, in air of 15 degC.
pub(crate) fn row(kind: TrialKind) -> RegisterRow {
    RegisterRow {
        stove: Some("box".into()),
        fuel: Some("wood".into()),
        exchanger: Some("coil".into()),
        fuel_mass: Some(8.0),
        fuel_moisture: Some(0.20),
        moisture_basis: Some(MoistureBasis::Wet),
        kindling_mass: Some(0.0),
        leftover_fuel: Some(0.0),
        leftover_char: Some(0.0),
        ambient: Some(15.0),
        line: 2,
        ..RegisterRow::bare("t1", kind, "logs/t1.csv", "tank", Water::Mass(160.0))
    }
}
