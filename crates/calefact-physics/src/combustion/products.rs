//! Flue gas at a given air ratio.

use super::stoichiometry::Stoichiometry;
use crate::PhysicsError;

/// Flue gas of one kilogram of fuel as fired, mol/kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlueGas {
    /// Carbon dioxide.
    pub co2: f64,
    /// Carbon monoxide.
    pub co: f64,
    /// Sulfur dioxide.
    pub so2: f64,
    /// Oxygen.
    pub o2: f64,
    /// Nitrogen, with the argon of the air.
    pub n2: f64,
    /// Water vapour.
    pub h2o: f64,
    /// Mass of all of it, kg/kg.
    pub mass: f64,
}

/// Flue gas at `air_ratio` times the least air, with a share `co_dry` of CO in the dry gas. The air is taken as dry.
///
/// CO burns up half a mol of oxygen less than CO2, which stays in the gas: dry gas D = D_0/(1 - co/2).
///
/// # Errors
/// If the air ratio is below 1, or the CO is negative or more than the fuel's carbon gives.
pub fn flue_gas(fuel: &Stoichiometry, air_ratio: f64, co_dry: f64) -> Result<FlueGas, PhysicsError> {
    let ratio = PhysicsError::check("air ratio", air_ratio, 1.0, f64::MAX)?;
    let excess = (ratio - 1.0) * fuel.oxygen;
    let n2 = fuel.fuel_nitrogen + ratio * fuel.air_nitrogen();
    let without_co = fuel.carbon + fuel.sulfur + n2 + excess;
    let most = fuel.carbon / (without_co + fuel.carbon / 2.0);
    let share = PhysicsError::check("CO in dry flue gas", co_dry, 0.0, most)?;
    let co = share * without_co / (1.0 - share / 2.0);
    Ok(FlueGas {
        co2: fuel.carbon - co,
        co,
        so2: fuel.sulfur,
        o2: excess + co / 2.0,
        n2,
        h2o: fuel.water,
        mass: fuel.gaseous + ratio * fuel.air_mass(),
    })
}

impl FlueGas {
    /// Dry gas, mol/kg.
    pub fn dry(&self) -> f64 {
        self.co2 + self.co + self.so2 + self.o2 + self.n2
    }
}
