//! Enthalpies, stack loss and the air ratio from a coil's heat, against published and worked figures.

use crate::assert_near;
use calefact_physics::combustion::{FlueGas, Stoichiometry, flue_gas, stoichiometry};
use calefact_physics::flue::{CO_HEAT, LATENT_HEAT, air_ratio_from_coil, sensible_heat};
use calefact_physics::fuel::{Composition, gross_dry, net_as_fired};

const WOOD: Composition = Composition { c: 0.50, h: 0.062, o: 0.432, n: 0.001, s: 0.0, ash: 0.005 };
const NOTHING: FlueGas = FlueGas { co2: 0.0, co: 0.0, so2: 0.0, o2: 0.0, n2: 0.0, h2o: 0.0, mass: 0.0 };
/// A mol of each gas alone: N2, O2, CO2, H2O, CO.
const PURE: [FlueGas; 5] = [
    FlueGas { n2: 1.0, ..NOTHING },
    FlueGas { o2: 1.0, ..NOTHING },
    FlueGas { co2: 1.0, ..NOTHING },
    FlueGas { h2o: 1.0, ..NOTHING },
    FlueGas { co: 1.0, ..NOTHING },
];

fn fuel(moisture: f64) -> Stoichiometry {
    stoichiometry(&WOOD, moisture).expect("a fuel")
}

fn gas(moisture: f64, ratio: f64, co: f64) -> FlueGas {
    flue_gas(&fuel(moisture), ratio, co).expect("a gas")
}

/// Enthalpy of a mol above 298.15 K, kJ, at a temperature in K.
fn enthalpy(pure: &FlueGas, kelvin: f64) -> f64 {
    sensible_heat(pure, 25.0, kelvin - 273.15) / 1e3
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
fn enthalpies_of_the_species() {
    for (kelvin, row) in GRI.into_iter().chain(COOLPROP) {
        for (pure, expected) in PURE.iter().zip(row) {
            assert_near(enthalpy(pure, kelvin), expected, 0.002 * expected + 5.1e-5);
        }
    }
    // JANAF 4th edition at 1000 K (from memory).
    for (pure, expected) in PURE.iter().zip([21.463, 22.703, 33.397, 26.000, 21.690]) {
        assert_near(enthalpy(pure, 1000.0), expected, 5e-4 * expected);
    }
}

/// CO2, H2O and CO use the polynomials of GRI-Mech 3.0 themselves, so that they meet the table of that source in every
/// printed digit.
#[test]
fn enthalpies_by_the_polynomials_are_those_of_their_source() {
    for (kelvin, row) in GRI {
        for (pure, expected) in PURE.iter().zip(row).skip(2) {
            assert_near(enthalpy(pure, kelvin), expected, 1.1e-4);
        }
    }
}

/// Shomate equation of CO2 and CO (NIST Chemistry WebBook, coefficients from memory), a second source within its range.
#[test]
fn shomate_agrees_within_its_range() {
    let co2 = [24.997_35, 55.186_96, -33.691_37, 7.948_387, -0.136_638, -403.6075, -393.5224];
    let co = [25.567_59, 6.096_130, 4.054_656, -2.671_301, 0.131_021, -118.0089, -110.5271];
    for (pure, [a, b, c, d, e, f, h]) in [(&PURE[2], co2), (&PURE[4], co)] {
        for kelvin in [300.0_f64, 400.0, 600.0, 900.0, 1200.0] {
            let t = kelvin / 1000.0;
            let shomate = a * t + b * t.powi(2) / 2.0 + c * t.powi(3) / 3.0 + d * t.powi(4) / 4.0 - e / t + f - h;
            assert_near(enthalpy(pure, kelvin), shomate, 0.002 * shomate + 8e-3);
        }
    }
}

/// JANAF 4th edition (from memory), kJ/mol at 1500 K: N2 38.405, O2 40.599, CO2 61.705, H2O 48.151, CO 38.850.
#[test]
fn enthalpies_of_a_hot_fire() {
    for (pure, expected) in PURE.iter().zip([38.405, 40.599, 61.705, 48.151, 38.850]) {
        assert_near(enthalpy(pure, 1500.0), expected, 2e-3 * expected);
    }
}

#[test]
fn enthalpies_join_between_spans_and_end_where_published() {
    for (pure, joint) in PURE.iter().zip([500.0, 700.0, 1000.0, 1000.0, 1000.0]) {
        assert_near(enthalpy(pure, joint - 1e-6), enthalpy(pure, joint + 1e-6), 2e-3);
        assert!(enthalpy(pure, 90.0).is_nan() && enthalpy(pure, 4000.0).is_nan());
    }
    assert!(enthalpy(&PURE[3], 201.0).is_finite() && enthalpy(&PURE[3], 199.0).is_nan());
}

/// SO2 counts as CO2.
#[test]
fn sulfur_dioxide_counts_as_carbon_dioxide() {
    assert_near(enthalpy(&FlueGas { so2: 1.0, ..NOTHING }, 600.0), enthalpy(&PURE[2], 600.0), 0.0);
}

/// Worked case computed with cantera 3.2.0, gri30: 20 % moisture, 19.0 MJ/kg dry, air ratio 2, 250 and 20 degC.
#[test]
fn worked_stack_loss() {
    let net = net_as_fired(19.0e6, 0.20);
    let gross = 0.8 * gross_dry(19.0e6, WOOD.h, WOOD.o, WOOD.n);
    assert_near(net / 1e6, 14.7114, 5.1e-5);
    assert_near(gross / 1e6, 16.2802, 5.1e-5);
    let flue = gas(0.20, 2.0, 0.0);
    let loss = sensible_heat(&flue, 20.0, 250.0);
    let vapour = sensible_heat(&FlueGas { h2o: flue.h2o, ..NOTHING }, 20.0, 250.0);
    assert_near(vapour / 1e6, 0.282_45, 5.1e-6);
    assert_near((loss - vapour) / 1e6, 2.333_07, 0.002 * 2.333);
    assert_near(100.0 * loss / net, 17.7789, 0.02);
    assert_near(100.0 * (loss + flue.h2o * LATENT_HEAT) / gross, 25.7164, 0.02);
    // With CoolProp's enthalpies in place of gri30's the same case gives 17.7624 %.
    assert_near(100.0 * loss / net, 17.7624, 0.005);
}

/// Case B, 0.30 % CO: q_a 17.7838, q_b 1.9117, efficiency 80.3045 % net and 72.5517 % gross.
#[test]
fn worked_stack_loss_with_carbon_monoxide() {
    let net = net_as_fired(19.0e6, 0.20);
    let gross = 0.8 * gross_dry(19.0e6, WOOD.h, WOOD.o, WOOD.n);
    let flue = gas(0.20, 2.0, 0.003);
    let (loss, unburnt) = (sensible_heat(&flue, 20.0, 250.0), flue.co * CO_HEAT);
    assert_near(100.0 * loss / net, 17.7838, 0.02);
    assert_near(100.0 * unburnt / net, 1.9117, 5.1e-4);
    assert_near(100.0 * (1.0 - (loss + unburnt) / net), 80.3045, 0.02);
    assert_near(100.0 * (1.0 - (loss + unburnt + flue.h2o * LATENT_HEAT) / gross), 72.5517, 0.02);
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
            let loss = sensible_heat(&gas(moisture, ratio, 0.0), 20.0, t);
            assert_near(100.0 * loss / net_as_fired(19.0e6, moisture), expected, 0.05);
        }
    }
}

/// The air ratio put in comes back from the heat its gas gives up.
#[test]
fn air_ratio_is_found_from_the_coil() {
    let (needs, burning) = (fuel(0.18), 1.2 / 3600.0);
    for ratio in [1.0, 1.8, 4.0, 9.0] {
        let heat = burning * sensible_heat(&flue_gas(&needs, ratio, 0.0).unwrap(), 160.0, 420.0);
        let heat = heat * (1.0 + 1e-14);
        assert_near(air_ratio_from_coil(&needs, burning, heat, 420.0, 160.0).unwrap(), ratio, 1e-9 * ratio);
    }
}

#[test]
fn an_air_ratio_goes_on_below_one_and_is_refused_without_heat_or_fall() {
    let (needs, burning) = (fuel(0.18), 1.2 / 3600.0);
    let least = burning * sensible_heat(&flue_gas(&needs, 1.0, 0.0).unwrap(), 160.0, 420.0);
    let twice = burning * sensible_heat(&flue_gas(&needs, 2.0, 0.0).unwrap(), 160.0, 420.0);
    let below = air_ratio_from_coil(&needs, burning, least - 0.1 * (twice - least), 420.0, 160.0).unwrap();
    assert_near(below, 0.9, 1e-9);
    assert!(air_ratio_from_coil(&needs, burning, 0.0, 420.0, 160.0).is_err());
    assert!(air_ratio_from_coil(&needs, burning, 2.0 * least, 160.0, 160.0).is_err());
    assert!(air_ratio_from_coil(&needs, burning, 2.0 * least, 160.0, 420.0).is_err());
    assert!(air_ratio_from_coil(&needs, 0.0, 2.0 * least, 420.0, 160.0).is_err());
    assert!(air_ratio_from_coil(&needs, burning, 1e6, 1727.0, 160.0).is_err());
    assert!(air_ratio_from_coil(&needs, burning, 1e6, 420.0, -74.0).is_err());
}

/// Heat capacity of a flue gas lies between that of air (1.006 at 20 degC) and steam; about 1.1 kJ/(kg K) for wood at
/// twice the least air (common practice, no source).
#[test]
fn mean_heat_capacity() {
    let flue = gas(0.20, 2.0, 0.0);
    assert_near(sensible_heat(&flue, 20.0, 250.0) / 230.0 / flue.mass, 1100.0, 30.0);
}
