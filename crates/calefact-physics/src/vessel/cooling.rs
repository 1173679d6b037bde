//! Small closed forms around a vessel: loss from two readings, mixing, a slow sensor.

use crate::PhysicsError;

/// Loss coefficient in W/K of a body of `heat_capacity` J/K that cools from `start` to `end` degC in `time` s at a
/// constant ambient: C/t ln((T_0 - T_a)/(T - T_a)).
///
/// # Errors
/// If the time is not positive or the body is not above the ambient at both readings.
pub fn conductance_from_cooling(
    heat_capacity: f64,
    start: f64,
    end: f64,
    ambient: f64,
    time: f64,
) -> Result<f64, PhysicsError> {
    let t = PhysicsError::positive("cooling time [s]", time)?;
    let first = PhysicsError::positive("first excess over the ambient [K]", start - ambient)?;
    let last = PhysicsError::positive("last excess over the ambient [K]", end - ambient)?;
    Ok(heat_capacity / t * (first / last).ln())
}

/// Temperature in degC two bodies settle at without loss, each given as heat capacity in J/K and temperature in degC.
pub fn mixed_temperature(first: (f64, f64), second: (f64, f64)) -> f64 {
    (first.0 * first.1 + second.0 * second.1) / (first.0 + second.0)
}

/// How far in K a first-order sensor of `time_constant` s reads behind a temperature that rises by `rate` K/s.
pub fn sensor_lag(rate: f64, time_constant: f64) -> f64 {
    rate * time_constant
}
