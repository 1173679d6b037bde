//! Enthalpies, stack loss and inferred gas flow against published and worked figures.

use calefact_physics::combustion::{FlueGas, Stoichiometry, flue_gas, stoichiometry};
use calefact_physics::flue::{
    Species, enthalpy_flow, gas_flow_from_coil, gas_mass_per_kg_fuel, gas_mean_cp, infer_from_coil, molar_enthalpy,
    sensible_heat, stack_loss,
};
use calefact_physics::fuel::{Composition, gross_as_fired, gross_dry, net_as_fired};

const ALL: [Species; 5] = [Species::N2, Species::O2, Species::Co2, Species::H2o, Species::Co];
const WOOD: Composition = Composition { c: 0.50, h: 0.062, o: 0.432, n: 0.001, s: 0.0, ash: 0.005 };

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!((actual - expected).abs() <= tolerance, "{actual} is not {expected} within {tolerance}");
}

fn fuel(moisture: f64) -> Stoichiometry {
    stoichiometry(&WOOD, moisture).unwrap_or_else(|e| panic!("{e}"))
}

fn gas(moisture: f64, ratio: f64, co: f64) -> FlueGas {
    flue_gas(&fuel(moisture), ratio, co).unwrap_or_else(|e| panic!("{e}"))
}

/// Enthalpies above 298.15 K in kJ/mol, N2 O2 CO2 H2O CO: cantera 3.2.0 with gri30.yaml.
const GRI: [(f64, [f64; 5]); 8] = [
    (300.0, [0.0538, 0.0544, 0.0688, 0.0621, 0.0539]),
    (400.0, [2.9733, 3.0270, 4.0000, 3.4525, 2.9780]),
    (500.0, [5.9202, 6.0862, 8.3004, 6.9248, 5.9357]),
    (600.0, [8.9050, 9.2448, 12.9038, 10.5006, 8.9458]),
    (700.0, [11.9424, 12.4997, 17.7549, 14.1916, 12.0225]),
    (800.0, [15.0457, 15.8381, 22.8088, 18.0035, 15.1739]),
    (1000.0, [21.4684, 22.7068, 33.3971, 26.0025, 21.6900]),
    (1200.0, [28.1185, 29.7627, 44.4690, 34.5237, 28.4255]),
];
/// The same, CoolProp 8.0.0 at zero density.
const COOLPROP: [(f64, [f64; 5]); 8] = [
    (300.0, [0.0539, 0.0544, 0.0688, 0.0621, 0.0539]),
    (400.0, [2.9712, 3.0255, 4.0044, 3.4517, 2.9758]),
    (500.0, [5.9109, 6.0845, 8.3085, 6.9245, 5.9302]),
    (600.0, [8.8940, 9.2444, 12.9109, 10.5013, 8.9406]),
    (700.0, [11.9366, 12.4994, 17.7593, 14.1918, 12.0209]),
    (800.0, [15.0460, 15.8367, 22.8126, 18.0023, 15.1747]),
    (1000.0, [21.4628, 22.7054, 33.4049, 26.0001, 21.6871]),
    (1200.0, [28.1098, 29.7652, 44.4816, 34.5060, 28.4256]),
];

/// The sources themselves differ by up to 0.16 %; half a printed digit is added.
#[test]
fn species_enthalpies() {
    for (kelvin, row) in GRI.into_iter().chain(COOLPROP) {
        for (species, expected) in ALL.into_iter().zip(row) {
            near(molar_enthalpy(species, kelvin - 273.15) / 1e3, expected, 0.002 * expected + 5.1e-5);
        }
    }
    // JANAF 4th edition at 1000 K (from memory).
    for (species, expected) in ALL.into_iter().zip([21.463, 22.703, 33.397, 26.000, 21.690]) {
        near(molar_enthalpy(species, 726.85) / 1e3, expected, 5e-4 * expected);
    }
}

/// Shomate equation of CO2 and CO (NIST Chemistry WebBook, coefficients from memory), a second source within its range.
#[test]
fn shomate_agrees_within_its_range() {
    let co2 = [24.997_35, 55.186_96, -33.691_37, 7.948_387, -0.136_638, -403.6075, -393.5224];
    let co = [25.567_59, 6.096_130, 4.054_656, -2.671_301, 0.131_021, -118.0089, -110.5271];
    for (species, [a, b, c, d, e, f, h]) in [(Species::Co2, co2), (Species::Co, co)] {
        for kelvin in [300.0_f64, 400.0, 600.0, 900.0, 1200.0] {
            let t = kelvin / 1000.0;
            let shomate = a * t + b * t.powi(2) / 2.0 + c * t.powi(3) / 3.0 + d * t.powi(4) / 4.0 - e / t + f - h;
            near(molar_enthalpy(species, kelvin - 273.15) / 1e3, shomate, 0.002 * shomate + 8e-3);
        }
    }
}

#[test]
fn enthalpies_join_and_end_where_published() {
    for (species, joint) in ALL.into_iter().zip([500.0, 700.0, 1000.0, 1000.0, 1000.0]) {
        let at = |k: f64| molar_enthalpy(species, k - 273.15);
        near(at(joint - 1e-6), at(joint + 1e-6), 2.0);
        near(at(298.15), 0.0, 1e-9);
        assert!(at(90.0).is_nan() && at(4000.0).is_nan());
    }
    assert!(molar_enthalpy(Species::H2o, -74.0).is_nan());
    assert!(stack_loss(&gas(0.2, 2.0, 0.0), 250.0, f64::NAN).is_err());
}

/// Worked case computed with cantera 3.2.0, gri30: 20 % moisture, 19.0 MJ/kg dry, air ratio 2, 250 and 20 degC.
#[test]
fn worked_stack_loss() {
    let net = net_as_fired(19.0e6, 0.20);
    let gross = gross_as_fired(gross_dry(19.0e6, WOOD.h, WOOD.o, WOOD.n), 0.20);
    near(net / 1e6, 14.7114, 5.1e-5);
    near(gross / 1e6, 16.2802, 5.1e-5);
    let flue = gas(0.20, 2.0, 0.0);
    let loss = stack_loss(&flue, 250.0, 20.0).unwrap();
    near(loss.dry_sensible / 1e6, 2.333_07, 0.002 * 2.333);
    near(loss.vapour_sensible / 1e6, 0.282_45, 0.001 * 0.282);
    near(100.0 * loss.net_share(net), 17.7789, 0.05);
    near(100.0 * loss.gross_share(gross), 25.7164, 0.05);
    // With CoolProp's enthalpies in place of gri30's the same case gives 17.7624 %.
    near(100.0 * loss.net_share(net), 17.7624, 0.005);
    near(loss.dry_sensible / flue.dry_volume() / 230.0, 1368.17, 0.002 * 1368.0);
    near(loss.vapour_sensible / (flue.h2o * 0.018_015) / 230.0, 1909.21, 0.001 * 1909.0);
}

/// Case B, 0.30 % CO: q_a 17.7838, q_b 1.9117, efficiency 80.3045 % net and 72.5517 % gross.
#[test]
fn worked_stack_loss_with_carbon_monoxide() {
    let net = net_as_fired(19.0e6, 0.20);
    let gross = gross_as_fired(gross_dry(19.0e6, WOOD.h, WOOD.o, WOOD.n), 0.20);
    let loss = stack_loss(&gas(0.20, 2.0, 0.003), 250.0, 20.0).unwrap();
    near(100.0 * loss.net_share(net), 17.7838, 0.05);
    near(100.0 * loss.co_share(net), 1.9117, 5.1e-4);
    near(100.0 * (1.0 - loss.net_share(net) - loss.co_share(net)), 80.3045, 0.05);
    near(100.0 * (1.0 - loss.gross_share(gross) - loss.co_share(gross)), 72.5517, 0.05);
}

/// Grid of q_a % on the net basis, same source: moisture, air ratio, at 150, 250, 400 degC.
#[test]
fn stack_loss_grid() {
    for (moisture, ratio, row) in [
        (0.10, 1.5, [7.460, 13.364, 22.507]),
        (0.10, 2.0, [9.574, 17.131, 28.811]),
        (0.10, 3.0, [13.803, 24.665, 41.418]),
        (0.10, 5.0, [22.260, 39.734, 66.633]),
        (0.20, 1.5, [7.782, 13.942, 23.482]),
        (0.20, 2.0, [9.936, 17.779, 29.902]),
        (0.20, 3.0, [14.243, 25.452, 42.742]),
        (0.20, 5.0, [22.856, 40.799, 68.422]),
        (0.30, 2.0, [10.421, 18.648, 31.366]),
        (0.30, 3.0, [14.832, 26.507, 44.518]),
        (0.50, 2.0, [12.146, 21.735, 36.570]),
        (0.50, 3.0, [16.929, 30.258, 50.831]),
    ] {
        for (t, expected) in [150.0, 250.0, 400.0].into_iter().zip(row) {
            let loss = stack_loss(&gas(moisture, ratio, 0.0), t, 20.0).unwrap();
            near(100.0 * loss.net_share(net_as_fired(19.0e6, moisture)), expected, 0.05);
        }
    }
}

/// The gas flow put in comes back from the heat it gives up.
#[test]
fn gas_flow_is_found_from_the_coil() {
    let (s, burning) = (fuel(0.18), 1.2 / 3600.0);
    for ratio in [1.0, 1.8, 4.0, 9.0] {
        let flue = flue_gas(&s, ratio, 0.0).unwrap();
        let heat = enthalpy_flow(&flue, burning, 420.0, 160.0);
        let found = infer_from_coil(&s, burning, heat, 420.0, 160.0).unwrap();
        near(found.air_ratio, ratio, 1e-9 * ratio);
        near(found.gas_flow, burning * gas_mass_per_kg_fuel(&flue), 1e-12);
        let cp = gas_mean_cp(&flue, 420.0, 160.0);
        near(gas_flow_from_coil(heat, cp, 420.0, 160.0).unwrap(), found.gas_flow, 1e-12);
    }
}

#[test]
fn a_coil_that_takes_less_than_the_least_gas_gives_is_refused() {
    let (s, burning) = (fuel(0.18), 1.2 / 3600.0);
    let least = enthalpy_flow(&flue_gas(&s, 1.0, 0.0).unwrap(), burning, 420.0, 160.0);
    let error = infer_from_coil(&s, burning, 0.9 * least, 420.0, 160.0).unwrap_err();
    near(error.low, least, 1e-9);
    assert!(infer_from_coil(&s, burning, least, 160.0, 160.0).is_err());
    assert!(infer_from_coil(&s, 0.0, least, 420.0, 160.0).is_err());
    assert!(gas_flow_from_coil(500.0, 1080.0, 200.0, 210.0).is_err());
}

/// Heat capacity of a flue gas lies between that of air (1.006 at 20 degC) and steam; about 1.08 kJ/(kg K) for wood at
/// twice the least air (common practice, no source).
#[test]
fn mean_heat_capacity() {
    let flue = gas(0.20, 2.0, 0.0);
    near(gas_mean_cp(&flue, 20.0, 250.0), 1100.0, 30.0);
    near(gas_mean_cp(&flue, 100.0, 100.0), gas_mean_cp(&flue, 90.0, 110.0), 0.5);
    near(sensible_heat(&flue, 20.0, 250.0), gas_mean_cp(&flue, 20.0, 250.0) * 230.0 * flue.mass, 1e-6);
}
