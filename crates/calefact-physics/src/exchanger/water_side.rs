//! Water through a coil: heat from flow, flow from heat.

use crate::PhysicsError;
use crate::water::enthalpy;

/// Heat in W that `mass_flow` kg/s of water takes up from `t_in` to `t_out` degC, by its enthalpies; negative where it
/// cools, NaN outside the range of liquid water.
pub fn coil_power(mass_flow: f64, t_in: f64, t_out: f64) -> f64 {
    mass_flow * (enthalpy(t_out) - enthalpy(t_in))
}

/// Flow in kg/s of water that carries `heat_flow` W while it warms from `t_in` to `t_out` degC: for a coil whose flow
/// was not measured, from the heat its tank gained.
///
/// # Errors
/// If the heat or the rise of enthalpy is not positive.
pub fn coil_flow(heat_flow: f64, t_in: f64, t_out: f64) -> Result<f64, PhysicsError> {
    let heat = PhysicsError::positive("heat flow [W]", heat_flow)?;
    let rise = PhysicsError::positive("enthalpy rise of the water [J/kg]", enthalpy(t_out) - enthalpy(t_in))?;
    Ok(heat / rise)
}
