//! Invented trials with known truth: a forward model of the whole rig, its instruments and its scatter.
//!
//! What lives here: [`Scenario`] (apparatus, effects, instruments), [`TrialPlan`] (one trial to be made),
//! [`simulate_trial`] (the trial, its displayed readings and its truth), and the [`nursery`] demo. The files of a
//! whole invented dataset are written by [`dataset_folder`]. Everything follows from a seed: the same seed gives the same trial on any number of
//! threads, because each instrument and each trial draws from a stream of its own.

mod burn;
pub mod dataset_folder;
mod error;
mod fire;
mod flue;
mod gas;
mod group;
mod instrument;
pub mod nursery;
mod observe;
mod plan;
mod rig;
mod scenario;
mod stream;
mod tank;
mod trial;
mod truth;
mod water;

pub use error::SimulationError;
pub use group::{GroupTruth, group_truth};
pub use instrument::{InstrumentModel, Reading};
pub use plan::{Air, BurnPlan, Logging, Refuel, TrialPlan};
pub use rig::Rig;
pub use scenario::{ExchangerModel, FuelModel, LevelEffect, Scenario, StoveModel, Trend, VesselModel};
pub use trial::{SimulatedTrial, simulate_trial};

use calefact_physics::fuel::net_as_fired;
use calefact_physics::water::{density as water_density, enthalpy as water_enthalpy};

#[cfg(test)]
mod tests;
