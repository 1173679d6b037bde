//! Why a dataset could not be written.

use crate::error::SimulationError;
use std::path::PathBuf;

/// Why a dataset could not be written.
#[derive(Debug, thiserror::Error)]
pub enum SimulateError {
    /// The folder holds something.
    #[error("{} is not empty; name a new folder", .0.display())]
    NotEmpty(PathBuf),
    /// A file could not be written.
    #[error("cannot write {}: {source}", path.display())]
    Write {
        /// The file.
        path: PathBuf,
        /// Why.
        source: std::io::Error,
    },
    /// The plan contradicts physics.
    #[error(transparent)]
    Plan(#[from] SimulationError),
}
