//! Stoves, fuels and exchangers of the nursery. Invented.

use crate::scenario::{ExchangerModel, FuelModel, StoveModel};
use calefact_data::apparatus::{Arrangement, Composition, Exchanger, Fuel, FuelClass, Stated, Stove};

const PER_HOUR: f64 = 1.0 / 3600.0;

/// Box stove, rocket stove, batch stove: figures in the order of [`StoveModel`].
pub(crate) fn stoves() -> Vec<StoveModel> {
    let stove = |id: &str,
                 name: &str,
                 note: &str,
                 [efficiency, efficiency_sd, rate, air_ratio, leak]: [f64; 5],
                 ramp_s,
                 down_s| {
        StoveModel {
            id: id.into(),
            entry: Stove { name: name.into(), note: Some(note.into()) },
            efficiency,
            efficiency_sd,
            burn_rate: rate * PER_HOUR,
            rate_sd: 0.05,
            air_ratio,
            leak,
            ramp_s,
            down_s,
        }
    };
    vec![
        stove("box", "Box stove", "welded sheet box, flue straight up", [0.33, 0.020, 3.4, 3.2, 0.30], 540.0, 900.0),
        stove("rocket", "Rocket stove", "insulated riser, fed by hand", [0.47, 0.012, 2.6, 3.0, 0.20], 300.0, 480.0),
        stove("batch", "Batch stove", "one load, brick-lined", [0.40, 0.016, 3.3, 2.8, 0.15], 720.0, 1200.0),
    ]
}

/// Spruce slabwood and beech splits.
pub(crate) fn fuels() -> Vec<FuelModel> {
    let fuel = |id: &str, name: &str, class, net: f64, [c, h, o, n, ash]: [f64; 5], price, efficiency| FuelModel {
        id: id.into(),
        entry: Fuel {
            name: name.into(),
            class: Some(class),
            net_calorific_value_dry: Some(Stated { value: net, std_uncertainty: Some(0.25e6) }),
            char_calorific_value: Some(Stated { value: 29.5e6, std_uncertainty: Some(1.0e6) }),
            composition: Some(Composition { c, h, o, n, s: 0.0, ash }),
            price_per_kg: Some(price),
            currency: Some("EUR".into()),
        },
        efficiency,
    };
    vec![
        fuel(
            "spruce",
            "Spruce slabwood",
            FuelClass::Coniferous,
            19.0e6,
            [0.508, 0.062, 0.425, 0.001, 0.004],
            0.14,
            0.0,
        ),
        fuel("beech", "Beech splits", FuelClass::Broadleaf, 18.4e6, [0.491, 0.061, 0.441, 0.002, 0.005], 0.22, -0.015),
    ]
}

/// Single, double and long coil; conductance stands for a gas flow of 0.012 kg/s.
pub(crate) fn exchangers() -> Vec<ExchangerModel> {
    let coil =
        |id: &str, name: &str, build: [f64; 7], [conductance, flow, lag_s, efficiency]: [f64; 4]| ExchangerModel {
            id: id.into(),
            entry: Exchanger {
                name: name.into(),
                arrangement: Some(Arrangement::Counter),
                build: BUILD.iter().map(|&key| key.to_owned()).zip(build).collect(),
                insulation: Some("50 mm rock wool round the housing".into()),
            },
            efficiency,
            conductance,
            gas_flow: 0.012,
            exponent: 0.6,
            coil_flow: flow,
            lag_s,
        };
    vec![
        coil("single", "Single coil", [0.022, 0.020, 6.0, 0.18, 0.050, 0.020, 1.0], [16.0, 0.055, 120.0, 0.0]),
        coil("double", "Double coil", [0.022, 0.020, 11.0, 0.18, 0.045, 0.018, 2.0], [25.0, 0.055, 180.0, 0.040]),
        coil("long", "Long thin coil", [0.018, 0.016, 18.0, 0.20, 0.030, 0.015, 2.0], [30.0, 0.048, 220.0, 0.065]),
    ]
}

/// Build dimensions described, m; passes are a count.
const BUILD: [&str; 7] = ["tube_outside", "tube_inside", "length", "coil_diameter", "pitch", "housing_gap", "passes"];
