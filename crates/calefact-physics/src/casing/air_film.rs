//! Air in the boundary layer.
//!
//! Source of viscosity and conductivity: US Standard Atmosphere 1976, equations 51 and 53. Density by the ideal gas.

use crate::kelvin::ZERO_C;

/// Specific gas constant of dry air, J/(kg K) (US Standard Atmosphere 1976).
const R_AIR: f64 = 287.053;
/// Heat capacity of air, J/(kg K): 1006 at 300 K, 1014 at 400 K (Incropera & DeWitt table A.4, from memory).
const HEAT_CAPACITY: f64 = 1010.0;
/// Standard gravity, m/s2.
const GRAVITY: f64 = 9.806_65;

/// Properties at one temperature.
pub(super) struct Film {
    /// Absolute temperature, K.
    kelvin: f64,
    /// Density, kg/m3.
    density: f64,
    /// Dynamic viscosity, Pa s.
    viscosity: f64,
    /// Thermal conductivity, W/(m K).
    pub(super) conductivity: f64,
}

impl Film {
    pub(super) fn at(t_c: f64, pressure: f64) -> Self {
        let t = t_c + ZERO_C;
        let power = libm::pow(t, 1.5);
        Self {
            kelvin: t,
            density: pressure / (R_AIR * t),
            viscosity: 1.458e-6 * power / (t + 110.4),
            conductivity: 2.646_38e-3 * power / (t + 245.4 * libm::exp10(-12.0 / t)),
        }
    }

    pub(super) fn prandtl(&self) -> f64 {
        HEAT_CAPACITY * self.viscosity / self.conductivity
    }

    /// Rayleigh number g beta dT L^3/(nu alpha), with beta = 1/T of an ideal gas.
    pub(super) fn rayleigh(&self, length: f64, difference: f64) -> f64 {
        let diffusivity = self.conductivity / (self.density * HEAT_CAPACITY);
        GRAVITY * difference / self.kelvin * (length * length * length) / (self.viscosity / self.density * diffusivity)
    }
}

#[cfg(test)]
mod tests {
    use super::Film;

    /// Incropera & DeWitt table A.4, air at 1 atm (from memory): T, viscosity, conductivity, Prandtl number.
    #[test]
    fn handbook_values_of_air() {
        for (kelvin, viscosity, conductivity, prandtl) in
            [(300.0, 184.6e-7, 26.3e-3, 0.707), (400.0, 230.1e-7, 33.8e-3, 0.690)]
        {
            let film = Film::at(kelvin - 273.15, 101_325.0);
            assert!((film.viscosity / viscosity - 1.0).abs() < 0.01);
            assert!((film.conductivity / conductivity - 1.0).abs() < 0.01);
            assert!((film.prandtl() / prandtl - 1.0).abs() < 0.02);
        }
    }

    /// Sea-level values of the US Standard Atmosphere 1976 at 288.15 K: viscosity 1.7894e-5 Pa s, conductivity
    /// 2.5326e-2 W/(m K), density 1.2250 kg/m3 (printed table, from memory).
    #[test]
    fn sea_level_values_of_the_standard_atmosphere() {
        let film = Film::at(15.0, 101_325.0);
        assert!((film.viscosity - 1.7894e-5).abs() < 5.1e-10);
        assert!((film.conductivity - 2.5326e-2).abs() < 5.1e-7);
        assert!((film.density - 1.2250).abs() < 5.1e-5);
    }
}
