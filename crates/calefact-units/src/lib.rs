//! Quantity kinds, unit symbols and conversion to SI.
//!
//! What lives here: the table of units a builder or a logger writes, trade spellings and UCUM codes alike, and the
//! exact factors between them. What does not: physics, files, estimates.
//!
//! Inside Calefact every number is in the unit [`Kind::si_symbol`] names. Temperatures are in degrees Celsius, a unit
//! of the SI; a temperature and a temperature difference are two kinds and do not convert into each other.

mod kind;
mod parse;
mod unit;

pub use kind::Kind;
pub use parse::{UnitError, parse_quantity};
pub use unit::Unit;
