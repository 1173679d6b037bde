//! Repeated trials of one kind: their mean, their scatter and what the next one may give.
//!
//! `summary` takes bare values; `shared` takes values that carry sources of error common to several trials.
//! Combining trials of unequal weight lives in [`crate::pooling`].

mod shared;
mod summary;

pub use shared::GroupMean;
pub use summary::{Scatter, Summary};
