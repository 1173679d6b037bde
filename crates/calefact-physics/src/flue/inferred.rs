//! Gas flow and air ratio where no analyser was used, from the heat a coil took and the gas's fall over it.
//!
//! This assumes that all heat the gas lost between the two probes is the heat given, that both probes show the gas's
//! mean temperature, that combustion is complete and that nothing condenses. Heat lost through the casing belongs to
//! the heat given; see [`casing`](crate::casing).

use super::sensible_heat;
use crate::PhysicsError;
use crate::combustion::{FlueGas, Stoichiometry, flue_gas};

/// What a coil's heat says about the fire.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inferred {
    /// Air over least air.
    pub air_ratio: f64,
    /// Flow of wet flue gas, kg/s.
    pub gas_flow: f64,
    /// The gas itself, per kg of fuel as fired.
    pub gas: FlueGas,
}

/// Gas flow in kg/s from `heat` W taken out of gas of mean heat capacity `mean_cp` J/(kg K) that fell from `t_before`
/// to `t_after` degC: heat/(c_p (t_before - t_after)).
///
/// # Errors
/// If the heat, the heat capacity or the fall is not positive.
pub fn gas_flow_from_coil(heat: f64, mean_cp: f64, t_before: f64, t_after: f64) -> Result<f64, PhysicsError> {
    let taken = PhysicsError::positive("heat taken from the gas [W]", heat)?;
    let cp = PhysicsError::positive("heat capacity of the gas [J/(kg K)]", mean_cp)?;
    let fall = PhysicsError::positive("fall of the gas temperature [K]", t_before - t_after)?;
    Ok(taken / (cp * fall))
}

/// Air ratio and gas flow of a fire burning `burn_rate` kg/s of fuel as fired, whose gas fell from `t_before` to
/// `t_after` degC while it gave up `heat` W.
///
/// The heat per kg of fuel is linear in the air ratio, so that two of its values give the answer exactly.
///
/// # Errors
/// If the burn rate, the heat or the fall is not positive, a temperature is outside the enthalpies' range, or the heat
/// is less than the gas of exactly enough air gives up.
pub fn infer_from_coil(
    fuel: &Stoichiometry,
    burn_rate: f64,
    heat: f64,
    t_before: f64,
    t_after: f64,
) -> Result<Inferred, PhysicsError> {
    let burning = PhysicsError::positive("burn rate [kg/s]", burn_rate)?;
    PhysicsError::positive("fall of the gas temperature [K]", t_before - t_after)?;
    PhysicsError::check("gas temperature [degC]", t_before, -73.0, 1726.0)?;
    PhysicsError::check("gas temperature [degC]", t_after, -73.0, 1726.0)?;
    let [one, two] = [1.0, 2.0].map(|ratio| flue_gas(fuel, ratio, 0.0).map(|g| sensible_heat(&g, t_after, t_before)));
    let (one, two) = (one?, two?);
    let taken = PhysicsError::check("heat taken from the gas [W]", heat, burning * one, f64::MAX)?;
    let air_ratio = 1.0 + (taken / burning - one) / (two - one);
    let gas = flue_gas(fuel, air_ratio, 0.0)?;
    Ok(Inferred { air_ratio, gas_flow: burning * gas.mass, gas })
}
