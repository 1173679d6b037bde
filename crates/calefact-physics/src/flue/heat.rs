//! Heat of a flue gas: sensible heat between two temperatures, and the heats of its vapour and its CO.

use super::species::{Species, molar_enthalpy};
use crate::combustion::FlueGas;

/// Heat of evaporation of water at 25 degC, J/mol (44.004 kJ/mol, CODATA key values; from memory).
pub const LATENT_HEAT: f64 = 44_004.0;
/// Heat of CO burning to CO2 at 25 degC, J/mol: difference of the enthalpies of formation in GRI-Mech 3.0, -393.508
/// and -110.529 kJ/mol.
pub const CO_HEAT: f64 = 282_980.0;

/// Sensible heat in J per kg of fuel as fired that its flue gas takes up from `t1` to `t2` degC; NaN below -73 and
/// above 1727 degC, where the enthalpies are not published.
///
/// The sulfur dioxide of wood, below 0.1 % of its CO2, is counted as CO2.
pub fn sensible_heat(gas: &FlueGas, t1: f64, t2: f64) -> f64 {
    let rise = |s| molar_enthalpy(s, t2) - molar_enthalpy(s, t1);
    gas.n2 * rise(Species::N2)
        + gas.o2 * rise(Species::O2)
        + (gas.co2 + gas.so2) * rise(Species::Co2)
        + gas.co * rise(Species::Co)
        + gas.h2o * rise(Species::H2o)
}
