//! Estimates, least squares, propagation, pooling and comparison. Pure mathematics: no files, and nothing of stoves.

pub mod anova;
pub mod contrast;
pub mod design;
pub mod dist;
pub mod equivalence;
pub mod estimate;
pub mod fit_error;
pub mod freedom;
pub mod ftest;
pub mod group;
pub mod influence;
pub mod instrument;
pub mod linear;
pub mod mixed;
pub mod monte_carlo;
pub mod multiplicity;
pub mod nonlinear;
pub mod pooling;
pub mod power;
pub mod propagate;
pub mod residuals;
pub mod rng;
mod root;
pub mod special;
pub mod tukey;
pub mod uncertain_value;
pub mod univariate;
pub mod welch;

pub use estimate::{Estimate, Interval};
pub use uncertain_value::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
