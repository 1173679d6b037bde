//! The oxygen and air a kilogram of fuel needs, and the gas it makes at exactly enough air.

use super::molar_mass;
use crate::PhysicsError;
use crate::fuel::Composition;

/// Oxygen in dry air, mole fraction.
pub(super) const OXYGEN_IN_AIR: f64 = 0.2095;

/// Amounts per kg of fuel as fired, mol/kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stoichiometry {
    pub(super) carbon: f64,
    pub(super) sulfur: f64,
    /// Nitrogen of the fuel, as N2.
    pub(super) fuel_nitrogen: f64,
    /// Water made from the fuel's hydrogen, and water that came as moisture.
    pub(super) water: f64,
    /// Least oxygen O2.
    pub(super) oxygen: f64,
    /// Share of the fuel that goes up as gas, kg/kg: all but the ash.
    pub(super) gaseous: f64,
}

/// Stoichiometry of a fuel of dry composition `dry` and wet-basis moisture `moisture_wet`.
///
/// O2 = c/12.011 + h/4.032 + s/32.06 - o/31.998 per kg, with the mass fractions as fired.
///
/// # Errors
/// If a mass fraction is negative, they add up to less than 0.9 or more than 1.01, moisture is outside 0 to 0.95, or
/// the fuel holds all the oxygen it needs.
pub fn stoichiometry(dry: &Composition, moisture_wet: f64) -> Result<Stoichiometry, PhysicsError> {
    let m = PhysicsError::check("moisture, wet basis", moisture_wet, 0.0, 0.95)?;
    let parts = [dry.c, dry.h, dry.o, dry.n, dry.s, dry.ash];
    for part in parts {
        PhysicsError::check("mass fraction of the composition", part, 0.0, 1.0)?;
    }
    PhysicsError::check("sum of the composition", parts.iter().sum(), 0.9, 1.01)?;
    let [carbon, hydrogen, sulfur, held] =
        [(dry.c, molar_mass::C), (dry.h, molar_mass::H2), (dry.s, molar_mass::S), (dry.o, molar_mass::O2)]
            .map(|(share, mass)| share * (1.0 - m) / mass);
    let oxygen = PhysicsError::positive("oxygen needed [mol/kg]", carbon + hydrogen / 2.0 + sulfur - held)?;
    Ok(Stoichiometry {
        carbon,
        sulfur,
        fuel_nitrogen: dry.n * (1.0 - m) / molar_mass::N2,
        water: hydrogen + m / molar_mass::H2O,
        oxygen,
        gaseous: (dry.c + dry.h + dry.o + dry.n + dry.s) * (1.0 - m) + m,
    })
}

impl Stoichiometry {
    /// Least dry air, mol/kg.
    pub(super) fn air(&self) -> f64 {
        self.oxygen / OXYGEN_IN_AIR
    }

    /// Least dry air, kg/kg.
    pub(super) fn air_mass(&self) -> f64 {
        self.oxygen * molar_mass::O2 + self.air_nitrogen() * molar_mass::ATMOSPHERIC_N2
    }

    /// The part of the least air that is not oxygen, mol/kg.
    pub(super) fn air_nitrogen(&self) -> f64 {
        self.air() - self.oxygen
    }

    /// Dry flue gas at exactly enough air, mol/kg.
    pub(super) fn dry_gas(&self) -> f64 {
        self.carbon + self.sulfur + self.fuel_nitrogen + self.air_nitrogen()
    }
}
