//! Flue gas per kilogram of wood as fired: mass, enthalpy and oxygen as functions of air ratio and temperature.
//!
//! All three are linear in the air ratio, so that two gases, at one and at two times the least air, stand for all.

use calefact_data::apparatus::Fuel;
use calefact_physics::combustion::{FlueGas, flue_gas, stoichiometry};
use calefact_physics::flue::sensible_heat;

/// Step of the tables, K.
const STEP: f64 = 10.0;
/// Temperature where the tables begin, degC.
const BASE: f64 = -20.0;
/// Points: to 1000 degC.
const POINTS: usize = 103;

/// Flue gas of one fuel at one moisture; complete combustion.
#[derive(Debug, Clone)]
pub(super) struct Gas {
    /// At exactly enough air, and at twice that.
    ends: [FlueGas; 2],
    /// Enthalpy of the first above that at `BASE`, J per kg of fuel, by temperature.
    enough: Vec<f64>,
    /// Enthalpy of the least air, J per kg of fuel, by temperature.
    air: Vec<f64>,
}

impl Gas {
    /// The gas of a fuel; none if its composition is not known.
    pub(super) fn new(fuel: &Fuel, moisture: f64) -> Option<Self> {
        let needs = stoichiometry(fuel.composition.as_ref()?, moisture).ok()?;
        let ends = [flue_gas(&needs, 1.0, 0.0).ok()?, flue_gas(&needs, 2.0, 0.0).ok()?];
        let heat = |gas: &FlueGas, i: usize| sensible_heat(gas, BASE, (i as f64).mul_add(STEP, BASE));
        let enough: Vec<f64> = (0..POINTS).map(|i| heat(&ends[0], i)).collect();
        let air = (0..POINTS).map(|i| heat(&ends[1], i) - enough[i]).collect();
        Some(Self { ends, enough, air })
    }

    /// Enthalpy above a fixed base, J per kg of fuel as fired.
    pub(super) fn enthalpy(&self, celsius: f64, air_ratio: f64) -> f64 {
        let position = ((celsius - BASE) / STEP).max(0.0);
        let i = (position as usize).min(POINTS - 2);
        let at = |j: usize| (air_ratio - 1.0).mul_add(self.air[j], self.enough[j]);
        (position - i as f64).mul_add(at(i + 1) - at(i), at(i))
    }

    /// Wet gas, kg per kg of fuel as fired.
    pub(super) fn mass(&self, air_ratio: f64) -> f64 {
        (air_ratio - 1.0).mul_add(self.ends[1].mass - self.ends[0].mass, self.ends[0].mass)
    }

    /// Oxygen of the dry gas, volume fraction.
    pub(super) fn oxygen(&self, air_ratio: f64) -> f64 {
        let excess = air_ratio - 1.0;
        excess * self.ends[1].o2 / excess.mul_add(self.ends[1].dry() - self.ends[0].dry(), self.ends[0].dry())
    }
}

#[cfg(test)]
mod tests {
    use super::Gas;
    use calefact_data::apparatus::{Composition, Fuel};

    /// Worked case of a stack loss: C 50.0, H 6.2, O 43.2, N 0.1, ash 0.5 %, moisture 20 % wet basis, air ratio 2, flue
    /// at 250 degC, air at 20 degC: dry-gas loss 2.33307 MJ/kg, vapour 0.28245 MJ/kg, O2 10.5216 %, air 4.8104 kg/kg
    /// (computed with cantera 3.2.0, gri30.yaml; other property sources differ by up to 0.2 %).
    #[test]
    fn gas_of_a_worked_case() {
        let composition = Some(Composition { c: 0.5, h: 0.062, o: 0.432, n: 0.001, s: 0.0, ash: 0.005 });
        let gas = Gas::new(&Fuel { composition, ..Fuel::default() }, 0.2).expect("a gas");
        let heat = gas.enthalpy(250.0, 2.0) - gas.enthalpy(20.0, 2.0);
        assert!((heat / 2.615_52e6 - 1.0).abs() < 2e-3, "{heat}");
        assert!((gas.oxygen(2.0) - 0.105_216).abs() < 1e-4, "{}", gas.oxygen(2.0));
        assert!((gas.mass(2.0) - gas.mass(1.0) - 4.8104).abs() < 2e-3);
    }
}
