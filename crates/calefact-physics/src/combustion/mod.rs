//! Complete combustion of wood in air: oxygen, air and flue gas amounts per kilogram of fuel as fired.
//!
//! Amounts are in mol per kg of fuel as fired. What does not live here: the heat the gas carries, see
//! [`flue`](crate::flue).

mod air_ratio;
mod products;
mod stoichiometry;

pub use air_ratio::{air_ratio_from_co2, air_ratio_from_gas_flow, air_ratio_from_o2, air_ratio_rough};
pub use products::{FlueGas, flue_gas};
pub use stoichiometry::{Stoichiometry, stoichiometry};

/// Volume of a mol of ideal gas at 0 degC and 101.325 kPa, m3 (CODATA, exact to the digits given).
pub const MOLAR_VOLUME: f64 = 22.413_97e-3;
/// Oxygen in dry air, mole fraction.
pub const OXYGEN_IN_AIR: f64 = 0.2095;

/// Molar masses in kg/mol (IUPAC conventional atomic masses C 12.011, H 1.008, O 15.999, S 32.06, N 14.007).
pub(crate) mod molar {
    pub(crate) const C: f64 = 12.011e-3;
    pub(crate) const H2: f64 = 2.016e-3;
    pub(crate) const O2: f64 = 31.998e-3;
    pub(crate) const S: f64 = 32.06e-3;
    pub(crate) const N2: f64 = 28.014e-3;
    pub(crate) const H2O: f64 = 18.015e-3;
    /// All of dry air but its oxygen: nitrogen with the argon that goes with it (28.15, combustion handbooks).
    pub(crate) const ATMOSPHERIC_N2: f64 = 28.15e-3;
}
