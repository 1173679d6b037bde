//! Water against published check values.

use crate::assert_near;
use calefact_physics::water::{density, enthalpy, heat_capacity, saturation_temperature};

/// IAPWS SR6-08(2011), table 8 (printed density and heat capacity); enthalpy g + T s of the same row.
#[test]
fn iapws_sr6_table_8() {
    for (t, rho, cp, g, s) in [
        (260.0, 997.068_360, 4.300_174_72, -1.265_989_2, -0.209_985_55),
        (298.15, 997.047_013, 4.181_446_18, -4.561_753_7, 0.367_201_45),
        (375.0, 957.009_710, 4.217_746_97, -71.058_802_1, 1.328_066_16),
    ] {
        let c = t - 273.15;
        assert_near(density(c), rho, 5e-7);
        assert_near(heat_capacity(c) / 1e3, cp, 5e-9);
        assert_near(enthalpy(c) / 1e3, g + t * s, 375.0 * 5e-9 + 5e-8);
    }
}

/// IAPWS-95 at 0.101325 MPa, computed with the library iapws 1.5.5 (and CoolProp 8.0.0): t, rho, c_p, h.
const IAPWS_95: [(f64, f64, f64, f64); 14] = [
    (0.1, 999.8498, 4.21910, 0.4829),
    (5.0, 999.9666, 4.20504, 21.1200),
    (10.0, 999.7025, 4.19516, 42.1189),
    (15.0, 999.1026, 4.18846, 63.0768),
    (20.0, 998.2072, 4.18405, 84.0073),
    (25.0, 997.0476, 4.18131, 104.9201),
    (30.0, 995.6495, 4.17982, 125.8225),
    (40.0, 992.2164, 4.17941, 167.6163),
    (50.0, 988.0350, 4.18134, 209.4185),
    (60.0, 983.1958, 4.18495, 251.2487),
    (70.0, 977.7646, 4.19007, 293.1225),
    (80.0, 971.7904, 4.19675, 335.0553),
    (90.0, 965.3096, 4.20521, 377.0635),
    (99.0, 959.0661, 4.21453, 414.9510),
];

/// The release says it agrees with IAPWS-95 to 1e-6 in density; heat capacity near 0 degC is 3e-5 off; 1.3 kPa add
/// 0.0013 kJ/kg.
#[test]
fn iapws_95_table() {
    for (t, rho, cp, h) in IAPWS_95 {
        assert_near(density(t), rho, 2e-3);
        assert_near(heat_capacity(t) / 1e3, cp, 2e-4);
        assert_near(enthalpy(t) / 1e3, h, 3e-3);
    }
}

/// Kell (1975), J. Chem. Eng. Data 20, 97: density at 1 atm.
#[test]
fn kell_1975_density() {
    for t in [0.5, 4.0, 10.0, 20.0, 40.0, 60.0, 80.0, 99.0_f64] {
        let top = 999.839_52 + 16.945_176 * t - 7.987_040_1e-3 * t.powi(2) - 46.170_461e-6 * t.powi(3)
            + 105.563_02e-9 * t.powi(4)
            - 280.542_53e-12 * t.powi(5);
        assert_near(density(t), top / (1.0 + 16.879_85e-3 * t), 0.015);
    }
}

/// Heat gain per kg between two temperatures, IF97 by iapws 1.5.5; against IAPWS-95 each end differs by up to
/// 0.075 kJ/kg.
#[test]
fn heat_gains() {
    for (from, to, gain) in [
        (15.0, 40.0, 104.5453),
        (15.0, 60.0, 188.1437),
        (10.0, 60.0, 209.1040),
        (20.0, 80.0, 250.9785),
        (25.0, 95.0, 293.1020),
        (5.0, 95.0, 376.9119),
    ] {
        assert_near((enthalpy(to) - enthalpy(from)) / 1e3, gain, 0.1);
    }
}

/// A volume weighs what its temperature says: 100 L at 10, 15, 20, 60, 80 degC, IF97 by iapws 1.5.5.
#[test]
fn mass_of_a_hundred_litres() {
    for (t, kg) in [(10.0, 99.9702), (15.0, 99.9101), (20.0, 99.8206), (60.0, 98.3211), (80.0, 97.1803)] {
        assert_near(0.1 * density(t), kg, 0.0016);
    }
}

/// IAPWS-IF97 (2007): table 36, and table 35 read the other way, which the two equations allow to 1e-6 K.
#[test]
fn if97_boiling_line() {
    for (mpa, k) in [(0.1, 372.755_919), (1.0, 453.035_632), (10.0, 584.149_488)] {
        assert_near(saturation_temperature(mpa * 1e6) + 273.15, k, 5e-7);
    }
    for (k, mpa) in [(300.0, 0.353_658_941e-2), (500.0, 2.638_897_76), (600.0, 12.344_314_6)] {
        assert_near(saturation_temperature(mpa * 1e6) + 273.15, k, 2e-6);
    }
    assert_near(saturation_temperature(101_325.0), 99.9743, 5e-5);
    assert_near(saturation_temperature(61_325.0), 86.4872, 5e-5);
}

#[test]
fn outside_the_range_there_is_no_number() {
    for t in [110.1, -20.1, f64::NAN] {
        assert!(density(t).is_nan() && enthalpy(t).is_nan() && heat_capacity(t).is_nan(), "{t} degC");
    }
    for pressure in [611.0, 22.065e6, f64::NAN] {
        assert!(saturation_temperature(pressure).is_nan(), "{pressure} Pa");
    }
    assert!(density(110.0).is_finite() && enthalpy(-20.0).is_finite() && saturation_temperature(611.3).is_finite());
}
