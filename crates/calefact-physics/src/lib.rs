//! Water, air, fuel, combustion, flue gas, exchanger and casing as pure functions.
//!
//! What lives here: published formulas and constants, each with its source. What does not: files, units as typed,
//! uncertainty and statistics. Every argument and result is in SI units with temperatures in degrees Celsius
//! (absolute temperatures stay inside); fractions are pure numbers from 0 to 1.
//!
//! Property functions that take one temperature or pressure return NaN outside their stated range, so that a fault
//! shows instead of passing as a number; functions that can be asked for the impossible return [`PhysicsError`].
//!
//! Exponentials, logarithms and powers come from `libm`, so that every machine gives the same digits.

pub mod air;
pub mod casing;
pub mod caution;
pub mod combustion;
mod error;
pub mod exchanger;
pub mod flue;
pub mod fuel;
mod kelvin;
pub mod water;

pub use error::PhysicsError;
