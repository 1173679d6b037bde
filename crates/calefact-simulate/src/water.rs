//! Enthalpy of water by table, and its inverse, fast enough for a million rows.

use std::sync::OnceLock;

/// Step of the table, K.
const STEP: f64 = 0.5;
/// Points: 0 to 110 degC.
const POINTS: usize = 221;

static TABLE: OnceLock<[f64; POINTS]> = OnceLock::new();

fn table() -> &'static [f64; POINTS] {
    TABLE.get_or_init(|| std::array::from_fn(|i| calefact_physics::water::enthalpy(i as f64 * STEP)))
}

/// Specific enthalpy, J/kg, and its slope (specific heat), J/(kg K), by cubic interpolation between table points.
pub(super) fn enthalpy_and_slope(celsius: f64) -> (f64, f64) {
    let table = table();
    let position = celsius / STEP;
    let i = (position.floor().max(1.0) as usize).min(POINTS - 3);
    let x = position - i as f64;
    let [a, b, c, d] = [table[i - 1], table[i], table[i + 1], table[i + 2]];
    let (c1, c2, c3) = (c - b / 2.0 - a / 3.0 - d / 6.0, f64::midpoint(a, c) - b, (d - a) / 6.0 + (b - c) / 2.0);
    (c3.mul_add(x, c2).mul_add(x, c1).mul_add(x, b), (3.0 * c3).mul_add(x, 2.0 * c2).mul_add(x, c1) / STEP)
}

/// Specific enthalpy, J/kg.
pub(super) fn enthalpy(celsius: f64) -> f64 {
    enthalpy_and_slope(celsius).0
}

/// Temperature of a specific enthalpy, degC, by Newton's method from a guess.
pub(super) fn temperature(enthalpy: f64, guess: f64) -> f64 {
    (0..4).fold(guess, |t, _| {
        let (h, slope) = enthalpy_and_slope(t);
        t - (h - enthalpy) / slope
    })
}
