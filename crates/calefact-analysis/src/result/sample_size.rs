//! What would settle an open contrast, and where an error that trials share comes from.

use crate::fact::ErrorSource;
use serde::Serialize;

/// What would settle a difference that is open.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum SampleSizeAdvice {
    /// So many further trials of each level would probably show the difference.
    Further {
        /// If it is as large as seen.
        trials: u32,
        /// If it is as large as its interval allows.
        fewest: u32,
    },
    /// More than so many further trials of each level: the difference is small beside the scatter.
    MoreThan(u32),
    /// No number of trials would: this shared error stays.
    Never(ErrorOrigin),
}

impl SampleSizeAdvice {
    /// The number of further trials of each level, where there is one.
    pub const fn further_trials(&self) -> Option<u32> {
        match self {
            Self::Further { trials, .. } => Some(*trials),
            Self::MoreThan(_) | Self::Never(_) => None,
        }
    }
}

/// Where a shared error comes from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum ErrorOrigin {
    /// An instrument with all its errors, by id.
    Instrument(String),
    /// Another input.
    Input(ErrorSource),
}
