//! Errors shared by all trials of one replicate, drawn as the instrument sheets say, and the apparatus that states them.

use calefact_data::Apparatus;
use calefact_data::apparatus::{Fuel, Instrument, Stated, Tolerance, Vessel};
use rand::RngExt;
use rand_distr::{Distribution, StandardNormal};
use rand_pcg::Pcg64;
use std::collections::BTreeMap;

/// True heat capacity of the vessel, J/K, and net calorific values of dry wood and of char, J/kg.
pub(crate) const VESSEL: f64 = 20e3;
/// See [`VESSEL`].
pub(crate) const WOOD: f64 = 19.1e6;
/// See [`VESSEL`].
pub(crate) const CHAR: f64 = 29.5e6;

/// Limits of the sheets and standard uncertainties stated, at factor 1.
const PROBE: f64 = 0.5; // K
const SCALE_OFFSET: f64 = 0.02; // kg
const SCALE_GAIN: f64 = 0.005;
const MOISTURE: f64 = 0.02;
const WATER_GAIN: f64 = 0.015;
const VESSEL_U: f64 = 2e3; // J/K
const WOOD_U: f64 = 0.3e6; // J/kg
const CHAR_U: f64 = 1.5e6; // J/kg

/// Display step of the scale, kg, of the moisture meter, and of the air thermometer, K.
pub(crate) const SCALE_STEP: f64 = 0.01;
/// See [`SCALE_STEP`].
pub(crate) const MOISTURE_STEP: f64 = 0.005;
/// See [`SCALE_STEP`].
pub(crate) const AIR_STEP: f64 = 0.1;

/// Errors of one replicate: reading minus truth, stated minus true.
#[derive(Debug)]
pub(crate) struct Shared {
    tank: (f64, f64),
    air: (f64, f64),
    scale: (f64, f64),
    moisture: f64,
    water: f64,
    vessel: f64,
    wood: Vec<f64>,
    char: f64,
    factor: f64,
}

impl Shared {
    pub(crate) fn draw(rng: &mut Pcg64, factor: f64, fuels: usize) -> Self {
        let mut limit = |a: f64| factor * a * rng.random_range(-1.0..1.0);
        let (tank, air) = ((limit(PROBE), limit(PROBE)), (limit(PROBE), limit(PROBE)));
        let scale = (limit(SCALE_OFFSET), limit(SCALE_GAIN));
        let (moisture, water) = (limit(MOISTURE), limit(WATER_GAIN));
        let mut normal = |u: f64| -> f64 { factor * u * Distribution::<f64>::sample(&StandardNormal, rng) };
        let (vessel, char) = (normal(VESSEL_U), normal(CHAR_U));
        let wood = (0..fuels).map(|_| normal(WOOD_U)).collect();
        Self { tank, air, scale, moisture, water, vessel, wood, char, factor }
    }

    /// What the tank probe shows at a true temperature, before noise and display.
    pub(crate) fn tank(&self, at: f64) -> f64 {
        at + line(self.tank, at)
    }

    /// What the air probe shows.
    pub(crate) fn air(&self, at: f64) -> f64 {
        at + line(self.air, at)
    }

    /// What the scale shows for a mass, before display.
    pub(crate) fn scale(&self, kg: f64) -> f64 {
        kg * (1.0 + self.scale.1) + self.scale.0
    }

    /// What the moisture meter shows.
    pub(crate) fn moisture(&self, wet: f64) -> f64 {
        wet + self.moisture
    }

    /// What the water meter shows.
    pub(crate) fn water(&self, volume: f64) -> f64 {
        volume * (1.0 + self.water)
    }

    /// The apparatus as the experimenter writes it down.
    pub(crate) fn apparatus(&self, tank_step: f64) -> Apparatus {
        let stated = |value: f64, u: f64| Some(Stated { value, std_uncertainty: Some(self.factor * u) });
        let fuel = |error: &f64| Fuel {
            net_calorific_value_dry: stated(WOOD + error, WOOD_U),
            char_calorific_value: stated(CHAR + self.char, CHAR_U),
            ..Fuel::default()
        };
        let vessel = Vessel { heat_capacity: stated(VESSEL + self.vessel, VESSEL_U), ..Vessel::default() };
        let fuels = self.wood.iter().enumerate().map(|(i, error)| (format!("fuel{i}"), fuel(error))).collect();
        let vessels = BTreeMap::from([("tank".to_owned(), vessel)]);
        Apparatus { fuels, vessels, instruments: self.instruments(tank_step), ..Apparatus::default() }
    }

    fn instruments(&self, tank_step: f64) -> BTreeMap<String, Instrument> {
        let f = self.factor;
        let instrument = |reads: &[&str], tolerance: &[Tolerance], step: Option<f64>| Instrument {
            reads: reads.iter().map(|s| (*s).to_owned()).collect(),
            tolerance: tolerance.to_vec(),
            resolution: step,
            ..Instrument::default()
        };
        let probe = [Tolerance::Absolute(f * PROBE)];
        let scale = [Tolerance::SumOf(f * SCALE_OFFSET, f * SCALE_GAIN)];
        let weighed = ["fuel_mass", "kindling_mass", "leftover_fuel", "leftover_char"];
        let list = [
            ("probe", instrument(&["tank"], &probe, Some(tank_step))),
            ("air", instrument(&["ambient"], &probe, Some(AIR_STEP))),
            ("scale", instrument(&weighed, &scale, Some(SCALE_STEP))),
            ("moisture", instrument(&["fuel_moisture"], &[Tolerance::Absolute(f * MOISTURE)], Some(MOISTURE_STEP))),
            ("water", instrument(&["water"], &[Tolerance::OfReading(f * WATER_GAIN)], None)),
        ];
        list.into_iter().map(|(id, i)| (id.to_owned(), i)).collect()
    }
}

/// Error of a thermometer: a straight line from one error at 0 degC to another at 100 degC.
fn line(nodes: (f64, f64), at: f64) -> f64 {
    nodes.0 + (nodes.1 - nodes.0) * at / 100.0
}
