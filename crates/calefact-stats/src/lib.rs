//! Estimates, least squares, propagation, pooling and comparison. Pure mathematics: no files, and nothing of stoves.

mod bounds;
pub mod contrast;
mod course;
pub mod design;
pub mod dist;
pub mod equivalence;
mod estimate;
mod fit_error;
pub mod freedom;
pub mod ftest;
pub mod graph;
pub mod group;
pub mod holm;
pub mod influence;
pub mod linear;
pub mod mixed;
pub mod monte_carlo;
pub mod pooling;
pub mod power;
pub mod propagate;
pub mod residuals;
pub mod rng;
mod root;
mod special;
pub mod tukey;
mod uncertain_value;
pub mod univariate;
pub mod welch;

pub use bounds::Bounds;
pub use course::OrthogonalPolynomials;
pub use estimate::{Estimate, Interval};
pub use fit_error::FitError;
pub use uncertain_value::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
