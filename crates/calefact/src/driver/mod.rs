//! From the datasets of a pipeline to an analysis: what runs when, in parallel and in order.
//!
//! Standing-loss trials come first, since every other trial needs their loss coefficient, and reference-heater trials next where the
//! pipeline uses their ratio; then every log is read and reduced, those of the calibration a second time.
//! Reading, reducing, comparing and writing themselves live in the crates this one calls.

mod apparatus;
mod chunks;
mod columns;
mod inputs;
mod levels;
mod reduce;
mod register;
mod usual;

pub(crate) use columns::unknown as unknown_names;
pub(crate) use inputs::{Batch, Inputs};
pub(crate) use reduce::{Sink, groundwork, reduce_all, reducers, sources};
pub(crate) use usual::settings;
