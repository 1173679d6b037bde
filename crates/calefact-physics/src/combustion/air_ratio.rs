//! Air ratio (lambda, air over least air) from what an analyser or a flow says.

use super::{OXYGEN_IN_AIR, Stoichiometry};
use crate::PhysicsError;

/// Air ratio from O2 and CO in dry flue gas, mole fractions; exact for the fuel.
///
/// With y the CO, k = (O2 - y/2)/(1 - y/2) and D_1 the dry gas at exactly enough air:
/// lambda = 1 + k D_1/(O2_min (1 - k/0.2095)).
///
/// # Errors
/// If the oxygen is below half the CO (less air than needed) or not below that of air.
pub fn air_ratio_from_o2(fuel: &Stoichiometry, o2_dry: f64, co_dry: f64) -> Result<f64, PhysicsError> {
    let y = PhysicsError::check("CO in dry flue gas", co_dry, 0.0, 0.2)?;
    let o2 = PhysicsError::check("O2 in dry flue gas", o2_dry, y / 2.0, OXYGEN_IN_AIR * 0.999)?;
    let k = (o2 - y / 2.0) / (1.0 - y / 2.0);
    Ok(1.0 + k * fuel.dry_gas() / (fuel.oxygen * (1.0 - k / OXYGEN_IN_AIR)))
}

/// Air ratio from CO2 and CO in dry flue gas, mole fractions; exact for the fuel.
///
/// Dry gas D = carbon/(CO2 + CO); what it holds beyond the dry gas of exactly enough air is excess air.
///
/// # Errors
/// If CO2 is not positive, or CO2 and CO together are more than the fuel can give with enough air.
pub fn air_ratio_from_co2(fuel: &Stoichiometry, co2_dry: f64, co_dry: f64) -> Result<f64, PhysicsError> {
    let y = PhysicsError::check("CO in dry flue gas", co_dry, 0.0, 0.2)?;
    let z = PhysicsError::positive("CO2 in dry flue gas", co2_dry)?;
    let excess = fuel.carbon / (z + y) * (1.0 - y / 2.0) - fuel.dry_gas();
    // A share at the limit may lie a rounding above it.
    if excess < -1e-9 * fuel.dry_gas() {
        let high = fuel.carbon * (1.0 - y / 2.0) / fuel.dry_gas() - y;
        return Err(PhysicsError { quantity: "CO2 in dry flue gas", value: z, low: 0.0, high });
    }
    Ok(1.0 + excess.max(0.0) / fuel.air())
}

/// Air ratio from O2 alone, for any fuel: 0.2095/(0.2095 - O2). About 0.5 % high for wood at twice the least air.
///
/// # Errors
/// If O2 is negative or not below that of air.
pub fn air_ratio_rough(o2_dry: f64) -> Result<f64, PhysicsError> {
    let o2 = PhysicsError::check("O2 in dry flue gas", o2_dry, 0.0, OXYGEN_IN_AIR * 0.999)?;
    Ok(OXYGEN_IN_AIR / (OXYGEN_IN_AIR - o2))
}

/// Air ratio from the mass flow of wet flue gas and of fuel as fired, both in the same unit (kg/s).
///
/// lambda = (gas/fuel - (1 - ash))/air_min, the mass balance of the fire.
///
/// # Errors
/// If a flow is not positive, or the gas is less than the fuel makes with exactly enough air.
pub fn air_ratio_from_gas_flow(fuel: &Stoichiometry, gas_flow: f64, burn_rate: f64) -> Result<f64, PhysicsError> {
    let burning = PhysicsError::positive("burn rate [kg/s]", burn_rate)?;
    let least = burning * (fuel.gaseous + fuel.air_mass());
    let flow = PhysicsError::check("flue gas flow [kg/s]", gas_flow, least * (1.0 - 1e-9), f64::MAX)?;
    Ok(((flow / burning - fuel.gaseous) / fuel.air_mass()).max(1.0))
}
