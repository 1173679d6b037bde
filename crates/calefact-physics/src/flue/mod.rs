//! Heat carried by flue gas: species enthalpies, stack loss, and the gas flow a coil's heat implies.
//!
//! Flue gas is taken as a mixture of ideal gases whose water stays vapour; what condenses is not counted.

mod heat;
mod inferred;
mod species;
mod stack_loss;

pub use heat::{enthalpy_flow, gas_mass_per_kg_fuel, gas_mean_cp, sensible_heat};
pub use inferred::{Inferred, gas_flow_from_coil, infer_from_coil};
pub use species::{Species, molar_enthalpy};
pub use stack_loss::{CO_HEAT, LATENT_HEAT, StackLoss, stack_loss};
