//! Whole invented worlds for the coverage study: two stoves, their burns, and what their owner did and did not write down.
//!
//! Here: what a world is ([`World`]), the true values it draws, its burns, its logs with their faults, and the folder that is
//! written. Truth is that of the simulated physics, never of an estimator. Not here: the forward model itself, and the
//! study that runs the command on what is written.

mod burns;
mod draws;
mod facts;
mod log;
pub(crate) mod reference;
mod scenario;
mod spec;
mod truth;
mod write;

pub use spec::{Logs, Missing, Place, Trouble, World};
pub use truth::{TrialTruth, WorldTruth};

#[cfg(test)]
mod tests;
