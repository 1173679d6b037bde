//! What leaves with the flue gas, per kilogram of fuel as fired.

use super::heat::parts;
use crate::PhysicsError;
use crate::combustion::FlueGas;

/// Heat of evaporation of water at 25 degC, J/mol (44.004 kJ/mol, CODATA key values; from memory).
pub const LATENT_HEAT: f64 = 44_004.0;
/// Heat of CO burning to CO2 at 25 degC, J/mol: difference of the enthalpies of formation in GRI-Mech 3.0, -393.508
/// and -110.529 kJ/mol.
pub const CO_HEAT: f64 = 282_980.0;

/// Losses in J per kg of fuel as fired.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StackLoss {
    /// Sensible heat of the dry gas.
    pub dry_sensible: f64,
    /// Sensible heat of the water vapour.
    pub vapour_sensible: f64,
    /// Latent heat of the water vapour, a loss on the gross basis alone.
    pub latent: f64,
    /// Unburnt CO.
    pub co: f64,
}

/// Stack loss of a flue gas that leaves at `t_flue` degC where air and fuel came in at `t_air` degC.
///
/// The sensible heat of the fuel itself is left out.
///
/// ```
/// use calefact_physics::combustion::{air_ratio_from_o2, flue_gas, stoichiometry};
/// use calefact_physics::flue::stack_loss;
/// use calefact_physics::fuel::{FuelClass, net_as_fired, typical};
///
/// let wood = typical(FuelClass::Coniferous);
/// let fuel = stoichiometry(&wood.composition(), 0.20)?;
/// let gas = flue_gas(&fuel, air_ratio_from_o2(&fuel, 0.105, 0.0)?, 0.0)?;
/// let loss = stack_loss(&gas, 250.0, 20.0)?;
/// let share = loss.net_share(net_as_fired(wood.net.value, 0.20));
/// assert!((0.17..0.19).contains(&share));
/// # Ok::<(), calefact_physics::PhysicsError>(())
/// ```
///
/// # Errors
/// If a temperature is outside -73 to 1727 degC, where the enthalpies are published.
pub fn stack_loss(gas: &FlueGas, t_flue: f64, t_air: f64) -> Result<StackLoss, PhysicsError> {
    let flue = PhysicsError::check("flue gas temperature [degC]", t_flue, -73.0, 1726.0)?;
    let air = PhysicsError::check("air temperature [degC]", t_air, -73.0, 1726.0)?;
    let (dry_sensible, vapour_sensible) = parts(gas, air, flue);
    Ok(StackLoss { dry_sensible, vapour_sensible, latent: gas.h2o * LATENT_HEAT, co: gas.co * CO_HEAT })
}

impl StackLoss {
    /// Sensible heat of dry gas and vapour, J/kg.
    pub fn sensible(&self) -> f64 {
        self.dry_sensible + self.vapour_sensible
    }

    /// Thermal flue loss as a share of the net calorific value as fired, J/kg (q_a of the European standards).
    pub fn net_share(&self, net_as_fired: f64) -> f64 {
        self.sensible() / net_as_fired
    }

    /// Thermal flue loss with the vapour's latent heat as a share of the gross calorific value as fired, J/kg.
    pub fn gross_share(&self, gross_as_fired: f64) -> f64 {
        (self.sensible() + self.latent) / gross_as_fired
    }

    /// Loss in CO as a share of the calorific value given, net or gross, J/kg (q_b).
    pub fn co_share(&self, as_fired: f64) -> f64 {
        self.co / as_fired
    }
}
