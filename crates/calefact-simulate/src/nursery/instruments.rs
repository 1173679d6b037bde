//! Instruments of the nursery: limits of error as a sheet would give them, resolution, noise. Invented.

use crate::instrument::InstrumentModel;
use calefact_data::apparatus::{Instrument, Tolerance};

/// All instruments; each is one, whatever number of trials it reads.
pub(crate) fn instruments() -> Vec<InstrumentModel> {
    use Tolerance::{Absolute, GreaterOf, OfReading, SumOf};
    let mut list = vec![
        instrument("tankprobe", "Digital tank probe", &["tank"], &[Absolute(0.5)], 0.1, [0.05, 0.6]),
        instrument("inprobe", "Resistance probe, coil inlet", &["coil_in"], &[SumOf(0.3, 0.005)], 0.1, [0.08, 0.6]),
        instrument("outprobe", "Resistance probe, coil outlet", &["coil_out"], &[SumOf(0.3, 0.005)], 0.1, [0.15, 0.6]),
        instrument("hotprobe", "Type K before the coil", &["flue_before"], &[GreaterOf(2.5, 0.0075)], 1.0, [9.0, 0.8]),
        instrument("coolprobe", "Type K after the coil", &["flue_after"], &[GreaterOf(2.5, 0.0075)], 1.0, [3.0, 0.8]),
        instrument("shed", "Shed thermometer", &["ambient"], &[Absolute(1.0)], 0.1, [0.1, 0.8]),
    ];
    list.extend([
        instrument("skin", "Type K on the casing", &["casing"], &[GreaterOf(2.5, 0.0075)], 0.5, [0.4, 0.7]),
        instrument("flowmeter", "Turbine flow meter", &["flow"], &[OfReading(0.03)], 0.0005, [0.0006, 0.3]),
        instrument("oxygen", "Flue oxygen probe", &["flue_o2"], &[Absolute(0.004)], 0.001, [0.003, 0.7]),
        instrument("powermeter", "Plug power meter", &["power", "heater_power"], &[OfReading(0.01)], 1.0, [6.0, 0.2]),
        instrument("scale", "Hanging scale", WEIGHED, &[Absolute(0.02), OfReading(0.002)], 0.01, [0.0, 0.0]),
        instrument("pins", "Pin moisture meter", &["fuel_moisture"], &[Absolute(0.02)], 0.005, [0.008, 0.0]),
        instrument("dipstick", "Dipstick of the tank", &["water"], &[OfReading(0.01)], 0.0005, [0.0003, 0.0]),
    ]);
    list
}

const WEIGHED: &[&str] = &["fuel_mass", "kindling_mass", "leftover_fuel", "leftover_char", "fuel_added"];

fn instrument(
    id: &str,
    name: &str,
    reads: &[&str],
    tolerance: &[Tolerance],
    resolution: f64,
    [noise_sd, noise_phi]: [f64; 2],
) -> InstrumentModel {
    let entry = Instrument {
        name: name.into(),
        reads: reads.iter().map(|&r| r.to_owned()).collect(),
        tolerance: tolerance.to_vec(),
        resolution: Some(resolution),
        calibrated: false,
    };
    InstrumentModel { id: id.into(), entry, noise_sd, noise_phi, at_limit: false }
}
