//! Air ratio where no analyser was used, from the heat a coil took and the gas's fall over it.
//!
//! This assumes that all heat the gas lost between the two probes is the heat given, that both probes show the gas's
//! mean temperature, that combustion is complete and that nothing condenses. Heat lost through the casing belongs to
//! the heat given; see [`casing`](crate::casing).

use super::heat::sensible_heat;
use crate::PhysicsError;
use crate::combustion::{Stoichiometry, flue_gas};

/// Temperatures for which the enthalpies of all species are published, degC.
const LEAST_C: f64 = -73.0;
const GREATEST_C: f64 = 1726.0;

/// Air ratio of a fire burning `burn_rate` kg/s of fuel as fired, whose gas fell from `t_before` to `t_after` degC
/// while it gave up `heat` W.
///
/// The heat per kg of fuel is linear in the air ratio, so that two of its values give the answer exactly. The line goes on
/// below 1, where only an error of measurement can bring the heat: without those results a mean over many would be too high.
///
/// # Errors
/// If the burn rate, the heat or the fall is not positive, or a temperature is outside the enthalpies' range.
pub fn air_ratio_from_coil(
    fuel: &Stoichiometry,
    burn_rate: f64,
    heat: f64,
    t_before: f64,
    t_after: f64,
) -> Result<f64, PhysicsError> {
    let burning = PhysicsError::positive("burn rate [kg/s]", burn_rate)?;
    PhysicsError::positive("fall of the gas temperature [K]", t_before - t_after)?;
    PhysicsError::check("gas temperature [degC]", t_before, LEAST_C, GREATEST_C)?;
    PhysicsError::check("gas temperature [degC]", t_after, LEAST_C, GREATEST_C)?;
    let least = sensible_heat(&flue_gas(fuel, 1.0, 0.0)?, t_after, t_before);
    let twice = sensible_heat(&flue_gas(fuel, 2.0, 0.0)?, t_after, t_before);
    let taken = PhysicsError::positive("heat taken from the gas [W]", heat)?;
    Ok(1.0 + (taken / burning - least) / (twice - least))
}
