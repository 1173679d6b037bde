//! Quantity kinds, unit symbols and conversion to SI.
//!
//! What lives here: the table of units a builder or a logger writes, trade spellings and UCUM codes alike, and the
//! exact factors between them. What does not: physics, files, estimates.
//!
//! Inside Calefact every number is in the unit [`Kind::si_symbol`] names. Temperatures are in degrees Celsius, a unit
//! of the SI; a temperature and a temperature difference are two kinds and do not convert into each other.

mod error;
mod index;
mod kind;
mod parse;
mod quantity;
mod spelling;
mod table;
mod unit;

pub use error::UnitError;
pub use kind::Kind;
pub use parse::symbols;
pub use quantity::{common_fraction, parse_quantity};
pub use unit::Unit;
