//! What a kilogram of fuel needs and makes at exactly enough air.

use super::{MOLAR_VOLUME, OXYGEN_IN_AIR, molar};
use crate::PhysicsError;
use crate::fuel::Composition;

/// Amounts per kg of fuel as fired, mol/kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stoichiometry {
    /// Carbon.
    pub carbon: f64,
    /// Sulfur.
    pub sulfur: f64,
    /// Nitrogen of the fuel, as N2.
    pub fuel_nitrogen: f64,
    /// Water made from the fuel's hydrogen.
    pub water_made: f64,
    /// Water that came as moisture.
    pub water_moisture: f64,
    /// Least oxygen O2.
    pub oxygen: f64,
    /// Share of the fuel that goes up as gas, kg/kg: all but the ash.
    pub gaseous: f64,
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
        [(dry.c, molar::C), (dry.h, molar::H2), (dry.s, molar::S), (dry.o, molar::O2)]
            .map(|(w, mass)| w * (1.0 - m) / mass);
    let oxygen = PhysicsError::positive("oxygen needed [mol/kg]", carbon + hydrogen / 2.0 + sulfur - held)?;
    Ok(Stoichiometry {
        carbon,
        sulfur,
        fuel_nitrogen: dry.n * (1.0 - m) / molar::N2,
        water_made: hydrogen,
        water_moisture: m / molar::H2O,
        oxygen,
        gaseous: (dry.c + dry.h + dry.o + dry.n + dry.s) * (1.0 - m) + m,
    })
}

impl Stoichiometry {
    /// Least dry air, mol/kg.
    pub fn air(&self) -> f64 {
        self.oxygen / OXYGEN_IN_AIR
    }

    /// Least dry air, m3 at 0 degC and 101.325 kPa per kg.
    pub fn air_volume(&self) -> f64 {
        self.air() * MOLAR_VOLUME
    }

    /// Least dry air, kg/kg.
    pub fn air_mass(&self) -> f64 {
        self.oxygen * molar::O2 + self.air_nitrogen() * molar::ATMOSPHERIC_N2
    }

    /// What comes with the least air besides its oxygen, mol/kg.
    pub(super) fn air_nitrogen(&self) -> f64 {
        self.air() - self.oxygen
    }

    /// Dry flue gas at exactly enough air, mol/kg.
    pub fn dry_gas(&self) -> f64 {
        self.dry_of_fuel() + self.air_nitrogen()
    }

    /// Dry flue gas made of the fuel's own matter, mol/kg.
    pub(super) fn dry_of_fuel(&self) -> f64 {
        self.carbon + self.sulfur + self.fuel_nitrogen
    }

    /// Greatest share of CO2 in dry flue gas: at exactly enough air.
    pub fn co2_max(&self) -> f64 {
        self.carbon / self.dry_gas()
    }
}
