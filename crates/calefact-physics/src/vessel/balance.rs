//! Temperature, time and loss under constant heat.

use super::step::{phi_1, phi_2};
use crate::PhysicsError;

/// A vessel with its water, all at one temperature.
///
/// ```
/// use calefact_physics::vessel::Body;
///
/// let barrel = Body { heat_capacity: 200.0 * 4186.0, conductance: 3.0 };
/// let seconds = barrel.time_to(15.0, 60.0, 6000.0, 15.0)?;
/// assert!((seconds - 6350.7).abs() < 0.1);
/// # Ok::<(), calefact_physics::PhysicsError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Heat capacity C of water and vessel, J/K, above zero.
    pub heat_capacity: f64,
    /// Loss coefficient UA to the surroundings, W/K, zero or above.
    pub conductance: f64,
}

impl Body {
    /// Time constant C/UA in s; infinite without loss.
    pub fn time_constant(&self) -> f64 {
        self.heat_capacity / self.conductance
    }

    /// Temperature in degC that `heat` W would hold for ever: T_a + Q/UA.
    pub fn end_temperature(&self, heat: f64, ambient: f64) -> f64 {
        ambient + heat / self.conductance
    }

    /// Rate of rise in K/s at `t` degC: (Q - UA (T - T_a))/C.
    pub fn rate(&self, t: f64, heat: f64, ambient: f64) -> f64 {
        (heat - self.conductance * (t - ambient)) / self.heat_capacity
    }

    /// Temperature in degC after `time` s of constant heat and constant ambient, from `start` degC.
    pub fn temperature_after(&self, start: f64, heat: f64, ambient: f64, time: f64) -> f64 {
        self.advance(start, heat, ambient, ambient, time)
    }

    /// Temperature in degC after a step of `dt` s in which the ambient goes linearly from `ambient_0` to `ambient_1`
    /// degC and the heat is constant: exact, so that a piecewise linear ambient needs no finer step.
    pub fn advance(&self, start: f64, heat: f64, ambient_0: f64, ambient_1: f64, dt: f64) -> f64 {
        let x = dt / self.time_constant();
        let drift = x * (ambient_1 - ambient_0) * phi_2(x);
        start + self.rate(start, heat, ambient_0) * dt * phi_1(x) + drift
    }

    /// Time in s from `start` to `target` degC under constant heat.
    ///
    /// # Errors
    /// If the temperature goes the other way or never gets there; the error's range is what can be reached.
    pub fn time_to(&self, start: f64, target: f64, heat: f64, ambient: f64) -> Result<f64, PhysicsError> {
        let rate = self.rate(start, heat, ambient);
        let rise = target - start;
        if rise == 0.0 {
            return Ok(0.0);
        }
        // Share of the way to the end temperature.
        let y = rise / rate / self.time_constant();
        if !(rise / rate > 0.0 && y < 1.0) {
            let end = if rate == 0.0 { start } else { start + rate * self.time_constant() };
            let (low, high) = (start.min(end), start.max(end));
            return Err(PhysicsError { quantity: "target temperature [degC]", value: target, low, high });
        }
        Ok(rise / rate * if y == 0.0 { 1.0 } else { -(-y).ln_1p() / y })
    }

    /// Heat in J lost to a constant ambient during `time` s of constant heat: UA times the integral of T - T_a.
    pub fn heat_lost(&self, start: f64, heat: f64, ambient: f64, time: f64) -> f64 {
        let x = time / self.time_constant();
        let from_start = (start - ambient) * time * phi_1(x);
        let from_heat = heat / self.heat_capacity * time * time * phi_2(x);
        self.conductance * (from_start + from_heat)
    }
}
