//! Reading datasets and logs. IO lives at this edge; everything handed on is a plain value in SI.
//!
//! Steps: `dataset.toml` -> [`Apparatus`]; `trials.csv` -> [`RegisterRow`]s; `logs/*.csv` -> [`Readings`]. Every problem is
//! a [`Finding`]; an error stops the trial it belongs to, not the batch. Nothing is computed from the readings here.

pub mod apparatus;
pub mod finding;
pub mod readings;
pub mod register;

pub use apparatus::Apparatus;
pub use finding::{Finding, Severity};
pub use readings::{Channel, Readings};
pub use register::{MoistureBasis, RegisterRow, TrialKind, Water};
