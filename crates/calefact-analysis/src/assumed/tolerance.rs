//! Tolerances of columns whose instrument states none, or that no instrument is named for.
//!
//! Marks as in [`table`](super::table). The instrument's own entry always wins. Thermometers are taken as one instrument a
//! column, scales as one for all weighings.

use crate::fact::AssumedInput;
use calefact_data::apparatus::Tolerance;

/// Tolerance assumed of a column.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Assumed {
    /// Log or register column.
    pub(crate) column: &'static str,
    /// Name of the instrument that reads it where none is described.
    pub(crate) instrument: &'static str,
    /// Which tolerance.
    pub(crate) input: AssumedInput,
    /// Its limits; all act together.
    pub(crate) limits: &'static [Tolerance],
}

/// C: dial thermometers and digital probes without a class.
const THERMOMETER: &[Tolerance] = &[Tolerance::Absolute(1.5)];
/// P: class 2 type K, IEC 60584-1; C: radiation and placing in a flue.
const FLUE_PROBE: &[Tolerance] = &[Tolerance::GreaterOf(2.5, 0.0075), Tolerance::GreaterOf(15.0, 0.05)];
/// C: kitchen, luggage and bathroom scales.
const SCALE: &[Tolerance] = &[Tolerance::OfReading(0.02)];
/// C: a marked bucket or dipstick.
const VOLUME: &[Tolerance] = &[Tolerance::OfReading(0.03)];
/// C: three points of a pin meter.
const MOISTURE_METER: &[Tolerance] = &[Tolerance::Absolute(0.03)];
/// C: bucket and watch, or a dial.
const FLOW: &[Tolerance] = &[Tolerance::OfReading(0.10)];
/// P: rated power of heating appliances may deviate by +5 % or -10 % (IEC 60335-1, from memory).
const POWER: &[Tolerance] = &[Tolerance::OfReading(0.10)];
/// C: half a percentage point of O2 or CO2.
const GAS: &[Tolerance] = &[Tolerance::Absolute(0.005)];
/// C: a fifth of the reading of CO.
const MONOXIDE: &[Tolerance] = &[Tolerance::OfReading(0.2)];

/// All columns that a tolerance can be assumed for.
pub(crate) const COLUMNS: [Assumed; 18] = [
    own("tank", AssumedInput::ThermometerTolerance, THERMOMETER),
    own("coil_in", AssumedInput::ThermometerTolerance, THERMOMETER),
    own("coil_out", AssumedInput::ThermometerTolerance, THERMOMETER),
    own("ambient", AssumedInput::ThermometerTolerance, THERMOMETER),
    own("flue_before", AssumedInput::FlueProbeTolerance, FLUE_PROBE),
    own("flue_after", AssumedInput::FlueProbeTolerance, FLUE_PROBE),
    own("casing", AssumedInput::FlueProbeTolerance, FLUE_PROBE),
    scale("fuel_mass"),
    scale("kindling_mass"),
    scale("leftover_fuel"),
    scale("leftover_char"),
    own("water", AssumedInput::VolumeTolerance, VOLUME),
    own("fuel_moisture", AssumedInput::MoistureMeterTolerance, MOISTURE_METER),
    own("flow", AssumedInput::FlowTolerance, FLOW),
    own("heater_power", AssumedInput::PowerTolerance, POWER),
    own("flue_o2", AssumedInput::GasAnalysisTolerance, GAS),
    own("flue_co2", AssumedInput::GasAnalysisTolerance, GAS),
    own("flue_co", AssumedInput::GasAnalysisTolerance, MONOXIDE),
];

/// The tolerance assumed of a column.
pub(crate) fn of_column(column: &str) -> Option<&'static Assumed> {
    COLUMNS.iter().find(|c| c.column == column)
}

const fn own(column: &'static str, input: AssumedInput, limits: &'static [Tolerance]) -> Assumed {
    Assumed { column, instrument: column, input, limits }
}

const fn scale(column: &'static str) -> Assumed {
    Assumed { column, instrument: "scale", input: AssumedInput::ScaleTolerance, limits: SCALE }
}
