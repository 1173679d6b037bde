//! Complete combustion of wood in air: oxygen, air and flue gas amounts per kilogram of fuel as fired.
//!
//! Amounts are in mol per kg of fuel as fired. What does not live here: the heat the gas carries, see
//! [`flue`](crate::flue).

mod air_ratio;
mod molar_mass;
mod products;
mod stoichiometry;

pub use air_ratio::{air_ratio_from_co2, air_ratio_from_o2};
pub use products::{FlueGas, flue_gas};
pub use stoichiometry::{Stoichiometry, stoichiometry};
