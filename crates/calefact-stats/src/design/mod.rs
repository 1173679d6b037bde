//! Fixed-effects designs: from factors and covariates to a design matrix, and from a fit back to means a reader knows.
//!
//! [`variable`] holds what varies, [`matrix`] codes it, [`basis`] finds what cannot be told apart, [`effects`] tests terms,
//! [`means`] gives estimated marginal means and their pairwise contrasts.

pub mod basis;
pub mod effects;
pub mod matrix;
pub mod means;
pub mod variable;

pub use basis::{Aliased, Basis};
pub use effects::{EffectTest, EffectTests, SumOfSquares, effect_tests};
pub use matrix::{Coding, Design};
pub use means::{LevelPair, MarginalMean, marginal_means, pairwise};
pub use variable::{Covariate, Factor, Variable};

use thiserror::Error;

/// Why a design cannot be built.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DesignError {
    /// Variables of unequal length.
    #[error("`{name}` has {found} values where the others have {expected}")]
    Length {
        /// The variable.
        name: String,
        /// Its number of values.
        found: usize,
        /// The number expected.
        expected: usize,
    },
    /// A factor with fewer than two levels compares nothing.
    #[error("`{0}` has only one level here, so there is nothing to compare")]
    OneLevel(String),
    /// A covariate that is not a number everywhere.
    #[error("`{0}` is missing or not a number for some trials")]
    NotFinite(String),
    /// An interaction names no variable of the design, or one variable twice.
    #[error("an interaction needs two or more different variables of the design")]
    Interaction,
    /// No observations or no degrees of freedom left.
    #[error("{observations} trials cannot estimate {effects} effects and a scatter")]
    TooFew {
        /// Number of observations.
        observations: usize,
        /// Number of independent effects.
        effects: usize,
    },
    /// Not a factor of this design.
    #[error("variable {0} is not a factor of this design")]
    NotAFactor(usize),
}

pub(crate) use basis::rank;
