//! An invented dataset with known truth, written as a folder that runs as it is.
//!
//! What lives here: the text of the files (`dataset.toml`, the pipeline, register, logs, truth) and their writing. What
//! does not: the trials themselves.

pub(crate) mod dataset_toml;
mod error;
pub(crate) mod files;
pub(crate) mod log_csv;
mod number;
mod options;
mod pipeline_toml;
pub(crate) mod register_csv;
pub(crate) mod style;
mod truth_csv;
mod write;

pub use error::SimulateError;
pub use options::{SimulateOptions, Summary};
pub use write::write;

#[cfg(test)]
mod tests;
