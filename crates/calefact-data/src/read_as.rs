//! How a log was read: its columns and units, and its clock, for a person to see whether it was meant so.

use std::sync::Arc;

/// How the readings of a trial were read.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ReadAs {
    /// Columns in the order of the file, without those far to the right of a wide one.
    pub columns: Arc<[ReadColumn]>,
    /// First and last reading by the clock, where the times are those of a clock.
    pub clock: Option<[ClockTime; 2]>,
}

/// A column of a log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadColumn {
    /// Header as written.
    pub header: String,
    /// The canonical column; none where it was not read.
    pub column: Option<&'static str>,
    /// Unit of its numbers.
    pub unit: Option<&'static str>,
}

/// A time of a clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClockTime {
    /// Day, ISO 8601, where it is known.
    pub date: Option<String>,
    /// Whole minutes since midnight.
    pub minutes: u32,
    /// Whether the time is UTC.
    pub is_utc: bool,
}
