//! Estimates, least squares, propagation, pooling and comparison. Pure mathematics: no files, and nothing of stoves.

pub mod contrast;
pub mod dist;
pub mod estimate;
pub mod group;
pub mod multiplicity;
pub mod traced;
pub mod welch;

pub use estimate::{Estimate, Interval};
pub use traced::{Shape, Source, SourceBook, SourceInfo, Traced};
