//! The heat that water and vessel hold: heat capacity and loss coefficient, and the readings of a window as heat.

use crate::series::Series;
use calefact_physics::water;

/// Water mass, kg, vessel capacity, J/K, and loss coefficient, W/K, that turn temperatures into heat in a fit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Capacity {
    /// Water, kg.
    pub(crate) water_kg: f64,
    /// Vessel, J/K.
    pub(crate) vessel: f64,
    /// Loss coefficient, W/K.
    pub(crate) loss: f64,
}

impl Capacity {
    /// Heat stored since the first reading, J.
    pub(crate) fn stored(&self, tank: &[f64]) -> Vec<f64> {
        self.stored_by(tank, &enthalpies(tank))
    }

    /// Heat that takes the tank from one temperature to another, J.
    pub(crate) fn stored_from(&self, from: f64, to: f64) -> f64 {
        self.water_kg * (water::enthalpy(to) - water::enthalpy(from)) + self.vessel * (to - from)
    }

    fn stored_by(&self, tank: &[f64], enthalpy: &[f64]) -> Vec<f64> {
        let (Some(&first), Some(&h0)) = (tank.first(), enthalpy.first()) else { return Vec::new() };
        let stored = |(t, h): (&f64, &f64)| self.water_kg * (h - h0) + self.vessel * (t - first);
        tank.iter().zip(enthalpy).map(stored).collect()
    }

    /// A window as heat.
    pub(crate) fn heat(&self, window: &Series) -> Heat {
        let (enthalpy, excess) = (enthalpies(&window.tank), window.excess_integral());
        let stored = self.stored_by(&window.tank, &enthalpy);
        let delivered = stored.iter().zip(&excess).map(|(s, x)| s + self.loss * x).collect();
        Heat { enthalpy, excess, delivered }
    }

    /// Loss over heat capacity at a temperature, 1/s; zero where either is unknown.
    pub(crate) fn loss_rate(&self, tank_c: f64) -> f64 {
        let rate = self.loss / self.at(tank_c);
        if rate.is_finite() { rate } else { 0.0 }
    }

    /// Heat capacity of water and vessel at a temperature, J/K.
    pub(crate) fn at(&self, tank_c: f64) -> f64 {
        self.water_kg * water::heat_capacity(tank_c) + self.vessel
    }
}

/// Specific enthalpy of the water at some temperatures (degC), J/kg.
pub(crate) fn enthalpies(tank: &[f64]) -> Vec<f64> {
    tank.iter().map(|&t| water::enthalpy(t)).collect()
}

/// The readings of a window as heat, worked out once for every fit to them.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Heat {
    /// Specific enthalpy of the water, J/kg.
    pub(crate) enthalpy: Vec<f64>,
    /// Running integral of tank minus air, K s.
    pub(crate) excess: Vec<f64>,
    /// Delivered since the first reading: stored and lost, J.
    pub(crate) delivered: Vec<f64>,
}
