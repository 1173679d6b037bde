//! Heat carried by flue gas: species enthalpies, sensible heat, and the air ratio a coil's heat implies.
//!
//! Flue gas is taken as a mixture of ideal gases whose water stays vapour; what condenses is not counted.

mod coil;
mod heat;
mod species;

pub use coil::air_ratio_from_coil;
pub use heat::{CO_HEAT, LATENT_HEAT, sensible_heat};
