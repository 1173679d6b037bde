//! Heat exchangers by effectiveness and number of transfer units.
//!
//! Source: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, chapter 11, tables 11.3 and 11.4 (from memory;
//! every number checked against the library `ht`). C is a stream's capacity rate in W/K, C_r = C_min/C_max,
//! NTU = UA/C_min, effectiveness = q/(C_min (T_hot,in - T_cold,in)).

mod arrangement;
mod effectiveness;
mod transfer_units;
mod unmixed;

use arrangement::Relation;
pub use arrangement::{Arrangement, Stream};
pub use effectiveness::effectiveness;
pub use transfer_units::ntu;

/// Greatest number of transfer units asked about; beyond it the effectiveness is its limit in every digit.
const NTU_MAX: f64 = 1000.0;

/// Outer surface in m2 of a tube, from its outside diameter and length in m.
pub fn tube_area(outside_diameter: f64, length: f64) -> f64 {
    std::f64::consts::PI * outside_diameter * length
}
