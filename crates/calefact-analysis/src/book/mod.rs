//! The book of fuel use: what a kWh of heat and each job take with every combination of stove, fuel and exchanger.
//!
//! `own` takes the figures of one pipeline, [`assemble`] joins them with those of other books; rigs stay apart there and are
//! combined only with the scatter between them. Tables of other books are read elsewhere.

mod assemble;
mod day;
mod own;
mod per_heat;
mod rigs;

pub use assemble::{Foreign, assemble};
pub use day::season;
pub(crate) use own::own;
