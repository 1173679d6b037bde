//! Air pressure and boiling points against the standard atmosphere, the steam tables and old readings.

use crate::assert_near;
use calefact_physics::air::{boiling_point, pressure_at};
use calefact_physics::water::saturation_temperature;
use calefact_units::{Kind, Unit, parse_quantity};

/// Boiling points in degF and barometer readings in inHg at 17 places, Forbes (1857).
const FORBES: &str = include_str!("../../../../tests/data/forbes-1857/boiling-points.csv");

/// US Standard Atmosphere 1976 by the libraries ambiance 1.3.1 and ussa1976 0.3.4; boiling points by IF97.
#[test]
fn pressures_and_boiling_points_of_the_standard_atmosphere() {
    for (z, pa, boils) in [
        (0.0, 101_325.00, 99.974),
        (500.0, 95_461.29, 98.313),
        (1000.0, 89_876.28, 96.649),
        (1609.344, 83_431.76, 94.620),
        (2000.0, 79_501.41, 93.317),
        (3000.0, 70_121.14, 89.977),
        (4000.0, 61_660.42, 86.628),
    ] {
        assert_near(pressure_at(z), pa, 0.03);
        assert_near(boiling_point(z), boils, 6e-4);
    }
}

#[test]
fn heights_beyond_the_troposphere_have_no_pressure() {
    assert!(pressure_at(-500.0) > pressure_at(0.0) && pressure_at(11_000.0) > 22_000.0);
    for height in [-501.0, 11_001.0, f64::NAN] {
        assert!(pressure_at(height).is_nan() && boiling_point(height).is_nan(), "{height} m");
    }
}

/// Against IAPWS-IF97 (computed with the library iapws 1.5.5) the readings lie 0.082 degF high with standard deviation
/// 0.407; the twelfth is the known outlier at -1.424, and the other sixteen lie between 0.008 and 0.403.
#[test]
fn boiling_points_that_forbes_measured() {
    let fahrenheit = Unit::parse("degF", Kind::Temperature).unwrap();
    let excess = |line: &str| {
        let (reading, barometer) = line.split_once(',').unwrap();
        let pressure = parse_quantity(&format!("{barometer} inHg"), Kind::Pressure).unwrap();
        reading.parse::<f64>().unwrap() - fahrenheit.from_si(saturation_temperature(pressure))
    };
    let mut excesses: Vec<f64> = FORBES.lines().skip(1).map(excess).collect();
    assert_eq!(excesses.len(), 17);
    let mean = excesses.iter().sum::<f64>() / 17.0;
    assert_near(mean, 0.082, 5.1e-4);
    assert_near((excesses.iter().map(|e| (e - mean).powi(2)).sum::<f64>() / 16.0).sqrt(), 0.407, 5.1e-4);
    assert_near(excesses.remove(11), -1.424, 5.1e-4);
    assert_near(excesses.iter().copied().fold(f64::INFINITY, f64::min), 0.008, 5.1e-4);
    assert_near(excesses.iter().copied().fold(f64::NEG_INFINITY, f64::max), 0.403, 5.1e-4);
}
