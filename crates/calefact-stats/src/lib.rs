//! Estimates, least squares, propagation, pooling and comparison. Pure mathematics: no files, and nothing of stoves.

pub mod dist;
pub mod estimate;
pub mod traced;

pub use estimate::{Estimate, Interval};
pub use traced::{Shape, Source, SourceBook, SourceInfo, Traced};
