//! Fixed-effects designs: from factors and covariates to a design matrix, and to the combinations of its columns that
//! answer a question.
//!
//! `variable` holds what varies, `matrix` codes it, `basis` finds independent columns, `dependences` how the others follow from them, `aliased` names the effects that
//! cannot be told apart, `rows` gives means of levels, slopes and interactions. Fitting lives in [`crate::mixed`].

mod aliased;
mod basis;
mod dependences;
mod error;
mod matrix;
mod rows;
mod variable;

pub use aliased::Aliased;
pub use basis::Basis;
pub(crate) use basis::rank;
pub use dependences::Dependences;
pub use error::DesignError;
pub use matrix::Design;
pub use variable::{Covariate, Factor, Variable};
