//! Liquid water at atmospheric pressure, and its boiling line.

mod latent;
mod liquid;
mod saturation;

pub use latent::latent_heat;
pub use liquid::{RANGE_C, density, enthalpy, heat_capacity};
pub use saturation::{saturation_pressure, saturation_temperature};
