//! Stoichiometry and flue gas against worked cases.
//!
//! The worked figures were computed with cantera 3.2.0 and gri30.yaml as property source, by a script independent of
//! this crate; single fuels per kg of dry matter.

use calefact_physics::combustion::{
    Stoichiometry, air_ratio_from_co2, air_ratio_from_gas_flow, air_ratio_from_o2, air_ratio_rough, flue_gas,
    stoichiometry,
};
use calefact_physics::fuel::Composition;

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!((actual - expected).abs() <= tolerance, "{actual} is not {expected} within {tolerance}");
}

fn dry(c: f64, h: f64, o: f64, n: f64) -> Composition {
    Composition { c, h, o, n, s: 0.0, ash: (1.0 - c - h - o - n).max(0.0) }
}

/// C 50, H 6.2, O 43.2, N 0.1, ash 0.5 %, at a wet-basis moisture.
fn wood(moisture: f64) -> Stoichiometry {
    stoichiometry(&dry(0.50, 0.062, 0.432, 0.001), moisture).unwrap_or_else(|e| panic!("{e}"))
}

/// Per kg dry: O2 mol, air Nm3, air kg, CO2max %, dry gas Nm3 at exactly enough air.
#[test]
fn stoichiometry_of_dry_fuels() {
    // CH1.44O0.66 by its atomic masses, and the 0.1 % nitrogen that the worked figures add to it.
    let total = 12.011 + 1.44 * 1.008 + 0.66 * 15.999;
    let formula = dry(12.011 / total, 1.44 * 1.008 / total, 0.66 * 15.999 / total, 0.001);
    for (fuel, oxygen, air_nm3, air_kg, co2_max, gas) in [
        (dry(0.51, 0.063, 0.422, 0.001), 44.8978, 4.8035, 6.2056, 20.037, 4.7497),
        (dry(0.49, 0.062, 0.443, 0.001), 42.3283, 4.5286, 5.8504, 20.342, 4.4951),
        (formula, 42.8776, 4.5874, 5.9264, 20.461, 4.5602),
    ] {
        let s = stoichiometry(&fuel, 0.0).unwrap();
        near(s.oxygen, oxygen, 5.1e-5);
        near(s.air_volume(), air_nm3, 5.1e-5);
        near(s.air_mass(), air_kg, 1.1e-4);
        near(100.0 * s.co2_max(), co2_max, 5.1e-4);
        near(flue_gas(&s, 1.0, 0.0).unwrap().dry_volume(), gas, 5.1e-5);
    }
}

/// The worked stack-loss case: 20 % moisture, twice the least air.
#[test]
fn worked_case_amounts() {
    let s = wood(0.20);
    near(s.oxygen, 34.8037, 5.1e-5);
    near(s.air(), 166.1275, 1e-4);
    near(s.air_volume(), 3.723_58, 5.1e-6);
    near(s.air_mass(), 4.8104, 1e-4);
    near(s.water_made, 24.603, 5.1e-4);
    near(s.water_moisture, 11.102, 5.1e-4);
    let gas = flue_gas(&s, 2.0, 0.0).unwrap();
    near(gas.dry(), 330.7827, 1e-4);
    near(gas.dry_volume(), 7.414_15, 5.1e-6);
    near(gas.h2o, 35.7050, 5.1e-5);
    near(100.0 * gas.co2_dry(), 10.0679, 5.1e-5);
    near(100.0 * gas.o2_dry(), 10.5216, 5.1e-5);
    near(100.0 * s.co2_max(), 20.2258, 5.1e-5);
    near(100.0 * gas.h2o_wet(), 9.7425, 5.1e-5);
    near(gas.dew_point(101_325.0), 45.55, 5.1e-3);
}

/// Case B: the same with 0.30 % CO in the dry gas.
#[test]
fn worked_case_with_carbon_monoxide() {
    let gas = flue_gas(&wood(0.20), 2.0, 0.003).unwrap();
    near(gas.co / gas.dry(), 0.003, 1e-12);
    near(100.0 * gas.co2_dry(), 9.7528, 5.1e-5);
    near(100.0 * gas.o2_dry(), 10.6558, 5.1e-5);
    near(gas.dry_volume(), 7.425_29, 5.1e-6);
}

/// Water dew points at 101.325 kPa, air ratio 1, 1.5, 2, 3, 5.
#[test]
fn dew_point_grid() {
    for (moisture, row) in [
        (0.10, [54.53, 47.31, 42.22, 35.18, 26.60]),
        (0.20, [57.87, 50.66, 45.55, 38.44, 29.74]),
        (0.30, [61.35, 54.21, 49.10, 41.93, 33.11]),
        (0.50, [69.04, 62.21, 57.19, 50.01, 40.99]),
    ] {
        for (ratio, expected) in [1.0, 1.5, 2.0, 3.0, 5.0].into_iter().zip(row) {
            near(flue_gas(&wood(moisture), ratio, 0.0).unwrap().dew_point(101_325.0), expected, 0.05);
        }
    }
}

/// 20.95/(20.95 - O2) in %, by hand; and the exact form undoes the gas it came from, with and without CO.
#[test]
fn air_ratio_from_an_analyser() {
    for (o2, expected) in [(5.0, 1.313_48), (8.0, 1.617_76), (11.0, 2.105_53), (15.0, 3.521_01), (17.0, 5.303_80)] {
        near(air_ratio_rough(o2 / 100.0).unwrap(), expected, 5.1e-6);
    }
    near(air_ratio_rough(0.105_22).unwrap(), 2.009, 5.1e-4);
    let s = wood(0.20);
    for ratio in [1.0, 1.5, 2.0, 5.0, 12.0] {
        for co in [0.0, 0.003, 0.01] {
            let gas = flue_gas(&s, ratio, co).unwrap();
            near(air_ratio_from_o2(&s, gas.o2_dry(), co).unwrap(), ratio, 1e-9 * ratio);
            near(air_ratio_from_co2(&s, gas.co2_dry(), co).unwrap(), ratio, 1e-9 * ratio);
        }
        let gas = flue_gas(&s, ratio, 0.0).unwrap();
        near(air_ratio_from_gas_flow(&s, 0.002 * gas.mass, 0.002).unwrap(), ratio, 1e-9 * ratio);
    }
}

/// Mass in is mass out: the gas's mass by its species against fuel less ash plus air.
#[test]
fn mass_balance() {
    let gas = flue_gas(&wood(0.20), 2.0, 0.003).unwrap();
    let species = gas.co2 * 44.009 + gas.co * 28.010 + gas.o2 * 31.998 + gas.h2o * 18.015 + gas.n2 * 28.15;
    near(species / 1000.0, gas.mass, 1e-5 * gas.mass);
}

#[test]
fn impossible_fires_are_refused() {
    let s = wood(0.20);
    assert!(flue_gas(&s, 0.99, 0.0).is_err());
    assert!(flue_gas(&s, 2.0, 0.5).is_err());
    assert!(air_ratio_from_o2(&s, 0.2095, 0.0).is_err());
    assert!(air_ratio_from_o2(&s, 0.001, 0.01).is_err());
    let error = air_ratio_from_co2(&s, 0.21, 0.0).unwrap_err();
    near(error.high, s.co2_max(), 1e-12);
    let error = air_ratio_from_gas_flow(&s, 0.002, 0.001).unwrap_err();
    near(error.low, 0.001 * flue_gas(&s, 1.0, 0.0).unwrap().mass, 1e-9);
    assert!(stoichiometry(&dry(0.50, 0.062, 0.432, 0.001), 1.0).is_err());
    assert!(stoichiometry(&Composition { c: 0.2, ..dry(0.5, 0.06, 0.43, 0.0) }, 0.1).is_err());
    assert!(stoichiometry(&dry(0.01, 0.0, 0.98, 0.0), 0.1).is_err());
}
