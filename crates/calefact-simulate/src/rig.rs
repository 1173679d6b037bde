//! A scenario with its shared draws: the errors every trial has in common.

use super::instrument::{InstrumentModel, Reading};
use super::scenario::{FuelModel, Scenario};
use super::stream::{normal, stream};
use calefact_data::apparatus::Stated;

/// A scenario in which instruments, fuels and vessel have become particular ones.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Rig<'a> {
    /// The scenario.
    pub(crate) scenario: &'a Scenario,
    /// Seed of all draws.
    pub(crate) seed: u64,
    /// True net calorific value of dry matter by fuel, J/kg.
    pub(crate) calorific: Vec<f64>,
    /// True calorific value of char by fuel, J/kg.
    pub(crate) char_calorific: Vec<f64>,
    /// True heat capacity of the vessel, J/K.
    pub(crate) heat_capacity: f64,
    instruments: Vec<Reading>,
    perfect: Reading,
}

/// A true value drawn about a stated one.
fn about(stated: Option<Stated>, fallback: f64, seed: u64, label: &str) -> f64 {
    let Some(stated) = stated else { return fallback };
    normal(&mut stream(seed, label)).mul_add(stated.std_uncertainty.unwrap_or(0.0), stated.value)
}

impl<'a> Rig<'a> {
    /// Draws what all trials of a seed share.
    pub(crate) fn draw(scenario: &'a Scenario, seed: u64) -> Self {
        let fuels = || scenario.fuels.iter();
        let calorific =
            |f: &FuelModel| about(f.entry.net_calorific_value_dry, 18.9e6, seed, &format!("fuel/{}/calorific", f.id));
        let char = |f: &FuelModel| about(f.entry.char_calorific_value, 29.5e6, seed, &format!("fuel/{}/char", f.id));
        Self {
            scenario,
            seed,
            calorific: fuels().map(calorific).collect(),
            char_calorific: fuels().map(char).collect(),
            heat_capacity: about(scenario.vessel.entry.heat_capacity, 0.0, seed, "vessel/heat-capacity"),
            instruments: scenario.instruments.iter().map(|i| i.draw(seed)).collect(),
            perfect: Reading::perfect(),
        }
    }

    /// The instrument that reads a column; one without error if the scenario names none.
    pub(crate) fn instrument(&self, column: &str) -> &Reading {
        let reads = |i: &InstrumentModel| i.entry.reads.iter().any(|c| c == column);
        self.scenario.instruments.iter().position(reads).map_or(&self.perfect, |i| &self.instruments[i])
    }

    /// Effect of a day on the efficiency.
    pub(crate) fn day_effect(&self, block: &str) -> f64 {
        normal(&mut stream(self.seed, &format!("day/{block}"))) * self.scenario.day_sd * self.scenario.scatter
    }
}
