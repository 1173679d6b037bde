//! Sensible heat of a flue gas between two temperatures.

use super::{Species, molar_enthalpy};
use crate::combustion::FlueGas;

/// Heat in J per kg of fuel as fired that its flue gas takes up from `t1` to `t2` degC, dry gas and vapour apart.
///
/// The sulfur dioxide of wood, below 0.1 % of its CO2, is counted as CO2.
pub(super) fn parts(gas: &FlueGas, t1: f64, t2: f64) -> (f64, f64) {
    let rise = |s| molar_enthalpy(s, t2) - molar_enthalpy(s, t1);
    let dry = gas.n2 * rise(Species::N2)
        + gas.o2 * rise(Species::O2)
        + (gas.co2 + gas.so2) * rise(Species::Co2)
        + gas.co * rise(Species::Co);
    (dry, gas.h2o * rise(Species::H2o))
}

/// Sensible heat in J per kg of fuel as fired from `t1` to `t2` degC; NaN outside the ranges of [`molar_enthalpy`].
pub fn sensible_heat(gas: &FlueGas, t1: f64, t2: f64) -> f64 {
    let (dry, vapour) = parts(gas, t1, t2);
    dry + vapour
}

/// Wet flue gas per fuel as fired, kg/kg.
pub const fn gas_mass_per_kg_fuel(gas: &FlueGas) -> f64 {
    gas.mass
}

/// Mean heat capacity in J/(kg K) of the wet gas between `t1` and `t2` degC; at one temperature where they are equal.
pub fn gas_mean_cp(gas: &FlueGas, t1: f64, t2: f64) -> f64 {
    // A slope over a kelvin stands for the slope at a point.
    let (low, high) = if (t2 - t1).abs() < 1e-3 { (t1 - 0.5, t1 + 0.5) } else { (t1, t2) };
    sensible_heat(gas, low, high) / (high - low) / gas.mass
}

/// Heat flow in W that the gas of `burn_rate` kg/s of fuel as fired gives up from `t1` down to `t2` degC.
pub fn enthalpy_flow(gas: &FlueGas, burn_rate: f64, t1: f64, t2: f64) -> f64 {
    burn_rate * sensible_heat(gas, t2, t1)
}
