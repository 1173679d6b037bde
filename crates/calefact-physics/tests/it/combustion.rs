//! Stoichiometry and flue gas against worked cases.
//!
//! The worked figures were computed with cantera 3.2.0 and gri30.yaml as property source, by a script independent of
//! this crate; single fuels per kg of dry matter.

use crate::assert_near;
use calefact_physics::combustion::{
    FlueGas, Stoichiometry, air_ratio_from_co2, air_ratio_from_o2, flue_gas, stoichiometry,
};
use calefact_physics::fuel::Composition;

/// Volume of a mol of ideal gas at 0 degC and 101.325 kPa, m3 (CODATA).
const MOLAR_VOLUME: f64 = 22.413_97e-3;

fn dry(c: f64, h: f64, o: f64, n: f64) -> Composition {
    Composition { c, h, o, n, s: 0.0, ash: (1.0 - c - h - o - n).max(0.0) }
}

/// C 50, H 6.2, O 43.2, N 0.1, ash 0.5 %, at a wet-basis moisture.
fn wood(moisture: f64) -> Stoichiometry {
    stoichiometry(&dry(0.50, 0.062, 0.432, 0.001), moisture).expect("a fuel")
}

fn gas(fuel: &Stoichiometry, ratio: f64) -> FlueGas {
    flue_gas(fuel, ratio, 0.0).expect("a gas")
}

/// Least air of a fuel: the gas at twice the least air less the gas at exactly enough.
struct LeastAir {
    oxygen: f64,
    mol: f64,
    mass: f64,
}

fn least_air(fuel: &Stoichiometry) -> LeastAir {
    let (one, two) = (gas(fuel, 1.0), gas(fuel, 2.0));
    LeastAir { oxygen: two.o2 - one.o2, mol: two.dry() - one.dry(), mass: two.mass - one.mass }
}

/// Per kg dry: O2 mol, air Nm3, air kg, greatest CO2 %, dry gas Nm3 at exactly enough air.
#[test]
fn stoichiometry_of_dry_fuels() {
    // CH1.44O0.66 by its atomic masses, and the 0.1 % nitrogen that the worked figures add to it.
    let total = 12.011 + 1.44 * 1.008 + 0.66 * 15.999;
    let formula = dry(12.011 / total, 1.44 * 1.008 / total, 0.66 * 15.999 / total, 0.001);
    for (fuel, oxygen, air_nm3, air_kg, co2_max, dry_nm3) in [
        (dry(0.51, 0.063, 0.422, 0.001), 44.8978, 4.8035, 6.2056, 20.037, 4.7497),
        (dry(0.49, 0.062, 0.443, 0.001), 42.3283, 4.5286, 5.8504, 20.342, 4.4951),
        (formula, 42.8776, 4.5874, 5.9264, 20.461, 4.5602),
    ] {
        let fuel = stoichiometry(&fuel, 0.0).unwrap();
        let (air, exact) = (least_air(&fuel), gas(&fuel, 1.0));
        assert_near(air.oxygen, oxygen, 5.1e-5);
        assert_near(air.mol * MOLAR_VOLUME, air_nm3, 5.1e-5);
        assert_near(air.mass, air_kg, 1.1e-4);
        assert_near(100.0 * exact.co2 / exact.dry(), co2_max, 5.1e-4);
        assert_near(exact.dry() * MOLAR_VOLUME, dry_nm3, 5.1e-5);
    }
}

/// S + O2 -> SO2: carbon with 5 % sulfur needs 1000 (0.90/12.011 + 0.05/32.06) mol of O2, and makes as much SO2 as it
/// holds sulfur (atomic masses IUPAC).
#[test]
fn sulfur_burns_to_its_dioxide() {
    let coke = Composition { c: 0.90, h: 0.0, o: 0.0, n: 0.0, s: 0.05, ash: 0.05 };
    let fuel = stoichiometry(&coke, 0.0).unwrap();
    assert_near(least_air(&fuel).oxygen, 74.9313 + 1.5596, 1e-4);
    assert_near(gas(&fuel, 1.0).so2, 1.5596, 1e-4);
    assert_near(gas(&fuel, 1.0).mass, 0.95 + least_air(&fuel).mass, 1e-9);
    assert_near(gas(&fuel, 1.0).dry(), 74.9313 + 1.5596 + 76.4909 * 79.05 / 20.95, 1e-3);
    assert_near(air_ratio_from_o2(&fuel, gas(&fuel, 3.0).o2 / gas(&fuel, 3.0).dry(), 0.0).unwrap(), 3.0, 1e-9);
}

/// The worked stack-loss case: 20 % moisture, twice the least air.
#[test]
fn amounts_of_the_worked_case() {
    let (fuel, air) = (wood(0.20), least_air(&wood(0.20)));
    assert_near(air.oxygen, 34.8037, 5.1e-5);
    assert_near(air.mol, 166.1275, 1e-4);
    assert_near(air.mol * MOLAR_VOLUME, 3.723_58, 5.1e-6);
    assert_near(air.mass, 4.8104, 1e-4);
    let flue = gas(&fuel, 2.0);
    assert_near(flue.dry(), 330.7827, 1e-4);
    assert_near(flue.dry() * MOLAR_VOLUME, 7.414_15, 5.1e-6);
    assert_near(flue.h2o, 24.603 + 11.102, 5.1e-5 + 5e-4);
    assert_near(flue.h2o, 35.7050, 5.1e-5);
    assert_near(100.0 * flue.co2 / flue.dry(), 10.0679, 5.1e-5);
    assert_near(100.0 * flue.o2 / flue.dry(), 10.5216, 5.1e-5);
    assert_near(100.0 * flue.h2o / (flue.h2o + flue.dry()), 9.7425, 5.1e-5);
    assert_near(100.0 * gas(&fuel, 1.0).co2 / gas(&fuel, 1.0).dry(), 20.2258, 5.1e-5);
    // The fuel less its ash, and the air.
    assert_near(flue.mass, 1.0 - 0.8 * 0.005 + 2.0 * 4.8104, 2e-4);
}

/// Case B: the same with 0.30 % CO in the dry gas.
#[test]
fn amounts_with_carbon_monoxide() {
    let flue = flue_gas(&wood(0.20), 2.0, 0.003).unwrap();
    assert_near(flue.co / flue.dry(), 0.003, 1e-12);
    assert_near(100.0 * flue.co2 / flue.dry(), 9.7528, 5.1e-5);
    assert_near(100.0 * flue.o2 / flue.dry(), 10.6558, 5.1e-5);
    assert_near(flue.dry() * MOLAR_VOLUME, 7.425_29, 5.1e-6);
}

/// An analyser's O2 or CO2 gives back the air ratio of the gas it was put in.
#[test]
fn air_ratio_from_an_analyser() {
    let fuel = wood(0.20);
    for ratio in [1.0, 1.5, 2.0, 5.0, 12.0] {
        for co in [0.0, 0.003, 0.01] {
            let flue = flue_gas(&fuel, ratio, co).unwrap();
            assert_near(air_ratio_from_o2(&fuel, flue.o2 / flue.dry(), co).unwrap(), ratio, 1e-9 * ratio);
            assert_near(air_ratio_from_co2(&fuel, flue.co2 / flue.dry(), co).unwrap(), ratio, 1e-9 * ratio);
        }
    }
}

/// The worked case the other way: 10.5216 % O2 or 10.0679 % CO2 is an air ratio of 2, printed to 0.0001 %; case B
/// with 0.30 % CO likewise.
#[test]
fn air_ratio_of_the_worked_case() {
    let fuel = wood(0.20);
    assert_near(air_ratio_from_o2(&fuel, 0.105_216, 0.0).unwrap(), 2.0, 2e-5);
    assert_near(air_ratio_from_co2(&fuel, 0.100_679, 0.0).unwrap(), 2.0, 2e-5);
    assert_near(air_ratio_from_o2(&fuel, 0.106_558, 0.003).unwrap(), 2.0, 2e-5);
    assert_near(air_ratio_from_co2(&fuel, 0.097_528, 0.003).unwrap(), 2.0, 2e-5);
}

/// Every element that goes in comes out, with and without CO; the nitrogen of air stands with its argon.
#[test]
fn every_element_is_conserved() {
    let fuel = dry(0.50, 0.062, 0.432, 0.010);
    for co in [0.0, 0.01] {
        let needs = stoichiometry(&fuel, 0.20).unwrap();
        let flue = flue_gas(&needs, 1.7, co).unwrap();
        let air = least_air(&needs);
        assert_near(flue.co2 + flue.co, 800.0 * fuel.c / 12.011, 1e-9);
        assert_near(flue.h2o, 800.0 * fuel.h / 2.016 + 200.0 / 18.015, 1e-9);
        let oxygen_in = 800.0 * fuel.o / 31.998 + 100.0 / 18.015 + 1.7 * air.oxygen;
        assert_near(flue.co2 + flue.co / 2.0 + flue.o2 + flue.h2o / 2.0, oxygen_in, 1e-9);
        assert_near(flue.n2, 800.0 * fuel.n / 28.014 + 1.7 * (air.mol - air.oxygen), 1e-9);
        let species = flue.co2 * 44.009 + flue.co * 28.010 + flue.o2 * 31.998 + flue.h2o * 18.015 + flue.n2 * 28.15;
        assert_near(species / 1000.0, flue.mass, 1e-4 * flue.mass);
    }
}

#[test]
fn impossible_fires_are_refused() {
    let fuel = wood(0.20);
    assert!(flue_gas(&fuel, 0.99, 0.0).is_err());
    assert!(flue_gas(&fuel, 2.0, -0.001).is_err());
    // All carbon as CO: no more fits in.
    let exact = gas(&fuel, 2.0);
    let most = exact.co2 / (exact.dry() + exact.co2 / 2.0);
    assert!(flue_gas(&fuel, 2.0, most + 1e-6).is_err());
    assert_near(flue_gas(&fuel, 2.0, most - 1e-9).unwrap().co2, 0.0, 1e-4);
    assert!(air_ratio_from_o2(&fuel, 0.2095, 0.0).is_err());
    assert!(air_ratio_from_o2(&fuel, 0.004, 0.01).is_err());
    assert!(air_ratio_from_o2(&fuel, 0.006, 0.01).is_ok());
    assert!(air_ratio_from_co2(&fuel, 0.0, 0.01).is_err());
    let greatest = |co: f64| {
        let flue = flue_gas(&fuel, 1.0, co).unwrap();
        flue.co2 / flue.dry()
    };
    for co in [0.0, 0.02] {
        let error = air_ratio_from_co2(&fuel, 0.21, co).unwrap_err();
        assert_near(error.high, greatest(co), 1e-12);
        assert!(air_ratio_from_co2(&fuel, greatest(co) * (1.0 - 1e-12), co).is_ok());
        assert!(air_ratio_from_co2(&fuel, greatest(co) * (1.0 + 1e-6), co).is_err());
    }
}

#[test]
fn impossible_fuels_are_refused() {
    let refused = |fuel: Composition, moisture| stoichiometry(&fuel, moisture).is_err();
    let good = dry(0.50, 0.062, 0.432, 0.001);
    assert!(refused(good, 0.96) && !refused(good, 0.95));
    assert!(refused(good, -0.01) && !refused(good, 0.0));
    assert!(refused(Composition { c: 0.2, ..good }, 0.1));
    assert!(refused(Composition { ash: -0.005, ..good }, 0.1));
    assert!(refused(Composition { ash: 0.03, ..good }, 0.1));
    assert!(refused(dry(0.01, 0.0, 0.98, 0.0), 0.1));
}
