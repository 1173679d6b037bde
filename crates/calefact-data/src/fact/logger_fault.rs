//! Facts about loggers: readings that no water, gas or casing can have taken, and rows that were logged twice.

use crate::Channel;
use serde::Serialize;

/// A fault of a logger. Its readings are left out, the trial is kept.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum LoggerFault {
    /// Single readings far from those on both sides.
    Spike {
        /// The channel.
        channel: Channel,
        /// The readings.
        readings: Vec<SpikeReading>,
    },
    /// A probe that stands still to the last digit while others move.
    Stuck {
        /// The channel.
        channel: Channel,
        /// The value.
        value: f64,
        /// Readings with it.
        readings: usize,
        /// Time of the first of them.
        from_s: f64,
        /// Time of the last of them.
        to_s: f64,
    },
    /// A channel with the same value throughout.
    Dead {
        /// The channel.
        channel: Channel,
        /// The value.
        value: f64,
        /// Readings with it.
        readings: usize,
    },
    /// A probe that shows its highest value again and again.
    Saturated {
        /// The channel.
        channel: Channel,
        /// The value.
        value: f64,
        /// Readings with it.
        readings: usize,
        /// Time of the first of them.
        from_s: f64,
        /// Time of the last of them.
        to_s: f64,
    },
    /// A tank that falls at the end faster than water cools, and stays there.
    Lifted {
        /// Time of the first reading of the fall.
        from_s: f64,
        /// The reading before it, degC.
        before: f64,
        /// The last reading, degC.
        last: f64,
    },
}

/// A reading of a spike.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SpikeReading {
    /// Time since the first reading.
    pub at_s: f64,
    /// Value in SI units.
    pub value: f64,
}

impl LoggerFault {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("reading-spike", "single readings are far from those on both sides"),
        ("probe-stuck", "a probe stands still to the last digit while others move"),
        ("channel-dead", "a column has the same value throughout a burn"),
        ("probe-saturated", "a probe shows its highest value again and again"),
        ("tank-falls-away", "the tank falls at the end of a log faster than water cools"),
    ];

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Spike { .. } => "reading-spike",
            Self::Stuck { .. } => "probe-stuck",
            Self::Dead { .. } => "channel-dead",
            Self::Saturated { .. } => "probe-saturated",
            Self::Lifted { .. } => "tank-falls-away",
        }
    }

    /// The channel concerned.
    pub const fn channel(&self) -> Channel {
        match self {
            Self::Spike { channel, .. }
            | Self::Stuck { channel, .. }
            | Self::Dead { channel, .. }
            | Self::Saturated { channel, .. } => *channel,
            Self::Lifted { .. } => Channel::Tank,
        }
    }
}
