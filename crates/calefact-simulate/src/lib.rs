//! Invented trials with known truth: a forward model of the whole rig, its instruments and its scatter.
//!
//! Other crates ask for a whole invented dataset, written by [`dataset_folder`], or for one of the many small ones of the coverage
//! study, written by [`worlds`]. Behind both stand the
//! scenario (apparatus, effects, instruments), the plan of one trial, the rig with its shared draws, and the trial with
//! its displayed readings and its truth. Everything follows from a seed: the same seed gives the same trial on any
//! number of threads, because each instrument and each trial draws from a stream of its own.

mod burn;
pub mod dataset_folder;
mod error;
mod fire;
mod flue;
mod forward;
mod gas;
mod group;
mod instrument;
mod nursery;
mod observe;
mod plan;
mod readings;
mod rig;
mod scenario;
mod stream;
mod tank;
mod trial;
mod truth;
mod water;
pub mod worlds;

#[cfg(test)]
mod tests;
