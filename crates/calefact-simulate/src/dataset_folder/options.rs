//! What to write, and what was written.

use std::num::NonZeroUsize;
use std::path::PathBuf;

/// What to write.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SimulateOptions {
    /// Folder; it must not exist, or be empty.
    pub out: PathBuf,
    /// Number of burns; none stands for the demo's own design in mixed units and formats. With a number, all logs are
    /// alike: seconds, degC, commas.
    pub trials: Option<NonZeroUsize>,
    /// Rows of each burn's log; none stands for 600, or for the demo's own mix.
    pub rows: Option<NonZeroUsize>,
    /// Seed of all draws.
    pub seed: u64,
}

/// The dataset as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Summary {
    /// The pipeline that runs the dataset.
    pub pipeline: PathBuf,
    /// Trials written.
    pub trials: usize,
    /// Readings in all logs.
    pub readings: usize,
}
