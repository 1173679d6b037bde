//! Air pressure and boiling point at a height above the sea.
//!
//! Source: US Standard Atmosphere 1976, the same as ISO 2533 below 32 km. Weather moves the real barometer by about
//! 3 kPa either way, which is 0.85 K of boiling point.

use crate::water::saturation_temperature;

/// Standard pressure at sea level, Pa.
const STANDARD_PRESSURE: f64 = 101_325.0;
/// Nominal earth radius of the standard, m.
const EARTH_RADIUS: f64 = 6_356_766.0;
/// Lapse rate K/m, sea-level temperature K, exponent g M/(R L) of the standard.
const LAPSE: f64 = 0.0065;
const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
const EXPONENT: f64 = 5.255_876;
/// Heights the troposphere formula is used for, m above sea level.
const ALTITUDE_RANGE: (f64, f64) = (-500.0, 11_000.0);

/// Pressure in Pa of the standard atmosphere at a geometric height in m; NaN outside -500 to 11 000 m.
///
/// p = 101325 (1 - 0.0065 H/288.15)^5.255876, with the geopotential height H = r z/(r + z).
pub fn pressure_at(altitude_m: f64) -> f64 {
    if !(ALTITUDE_RANGE.0..=ALTITUDE_RANGE.1).contains(&altitude_m) {
        return f64::NAN;
    }
    let geopotential = EARTH_RADIUS * altitude_m / (EARTH_RADIUS + altitude_m);
    STANDARD_PRESSURE * libm::pow(1.0 - LAPSE * geopotential / SEA_LEVEL_TEMPERATURE, EXPONENT)
}

/// Boiling point of water in degC at a geometric height in m, in standard weather; NaN outside -500 to 11 000 m.
pub fn boiling_point(altitude_m: f64) -> f64 {
    saturation_temperature(pressure_at(altitude_m))
}
