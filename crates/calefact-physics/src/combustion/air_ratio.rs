//! Air ratio (lambda, air over least air) from what an analyser shows.

use super::stoichiometry::{OXYGEN_IN_AIR, Stoichiometry};
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
