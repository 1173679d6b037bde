//! Heat exchangers by effectiveness and number of transfer units.
//!
//! Source: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, chapter 11, tables 11.3 and 11.4 (from memory;
//! every number checked against the library `ht`). C is a stream's capacity rate in W/K, C_r = C_min/C_max,
//! NTU = UA/C_min, effectiveness = q/(C_min (T_hot,in - T_cold,in)).

mod arrangement;
mod duty;
mod effectiveness;
mod scaling;
mod transfer_units;
mod tube;
mod unmixed;

pub use arrangement::{Arrangement, Stream};
pub use duty::{Duty, Streams, conductance, duty};
pub use effectiveness::effectiveness;
pub use scaling::{AREA_EXPONENT, BuildRatio, ConductanceLaw, GAS_FLOW_EXPONENT, PASSES_EXPONENT, WATER_SHARE};
pub use transfer_units::ntu;
pub use tube::{laminar_flow, tube_area};
