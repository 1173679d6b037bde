//! Liquid water at atmospheric pressure, and its boiling line.

mod liquid;
mod saturation;

pub use liquid::{density, enthalpy, heat_capacity};
pub use saturation::saturation_temperature;
