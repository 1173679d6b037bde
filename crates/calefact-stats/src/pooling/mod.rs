//! Random-effects combination of estimates that each carry an uncertainty of their own.
//!
//! Model: y_i = mu + b_i + e_i, b_i of variance tau^2 between trials, e_i of known variance v_i within trial i. `study` holds
//! the estimates and their weighted sums, `tau2` estimates the variance between trials, `profile` gives its interval,
//! `pooled` the mean, and `shared` carries errors common to several trials through. Means of equal weight, which need no
//! model, live in [`crate::group`].

mod pooled;
mod profile;
mod shared;
mod study;
mod tau2;

pub use pooled::{IntervalMethod, Pooled, pool};
pub use profile::tau2_interval;
pub use shared::{PooledValue, pool_values};
pub use study::{PoolError, Study};
pub use tau2::Tau2Method;
