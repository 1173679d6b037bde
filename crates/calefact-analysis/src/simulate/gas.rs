//! Flue gas per kilogram of wood as fired: mass and enthalpy as a function of air ratio and temperature.

use calefact_data::apparatus::Fuel;

/// Step of the tables, K; they run from 0 degC.
const STEP: f64 = 20.0;
const POINTS: usize = 81;

/// Flue gas of one fuel at one moisture: a part that is there at any air ratio and a part that goes with it.
#[derive(Debug, Clone)]
pub(super) struct Gas {
    /// Enthalpy of the products of complete combustion less that of the air they took, J per kg of fuel, by temperature.
    products: Vec<f64>,
    /// Enthalpy of the stoichiometric air, J per kg of fuel, by temperature.
    air: Vec<f64>,
    /// Mass of fuel that goes up the flue (all but ash), kg per kg.
    solid_free: f64,
    /// Stoichiometric air, kg per kg.
    air_mass: f64,
}

impl Gas {
    /// Enthalpy, J per kg of fuel as fired.
    pub(super) fn enthalpy(&self, celsius: f64, air_ratio: f64) -> f64 {
        air_ratio.mul_add(interpolate(&self.air, celsius), interpolate(&self.products, celsius))
    }

    /// Wet gas, kg per kg of fuel as fired.
    pub(super) fn mass(&self, air_ratio: f64) -> f64 {
        air_ratio.mul_add(self.air_mass, self.solid_free)
    }
}

fn interpolate(table: &[f64], celsius: f64) -> f64 {
    let position = (celsius / STEP).max(0.0);
    let i = (position as usize).min(table.len() - 2);
    (position - i as f64).mul_add(table[i + 1] - table[i], table[i])
}

impl Gas {
    /// Stand-in.
    pub(super) fn of(_fuel: &Fuel, moisture: f64) -> Self {
        let st = 6.1 * (1.0 - moisture);
        let cp = |t: f64| 1005.0 * t + 0.1 * t * t;
        Self {
            products: (0..POINTS).map(|i| 1.3 * cp(i as f64 * STEP)).collect(),
            air: (0..POINTS).map(|i| st * cp(i as f64 * STEP)).collect(),
            solid_free: 0.99,
            air_mass: st,
        }
    }
}
