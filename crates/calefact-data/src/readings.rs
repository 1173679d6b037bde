//! The readings of one trial in SI, column by column.

use crate::Channel;
use std::collections::BTreeMap;

/// A word written into the log beside a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// Index of the reading.
    pub row: usize,
    /// The text.
    pub text: String,
}

/// Readings of one trial. All columns have the length of `elapsed_s`; a blank cell is NaN.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Readings {
    /// Time since the first reading, s, strictly increasing.
    pub elapsed_s: Vec<f64>,
    /// Channels present, SI.
    pub channels: BTreeMap<Channel, Vec<f64>>,
    /// Values left out of a channel as faults of the logger, by reading; they are blank in the channel.
    pub left_out: BTreeMap<Channel, Vec<(usize, f64)>>,
    /// Flag per reading: zero is good; the bits are those of [`flag`].
    pub flags: Vec<u8>,
    /// `event` cells.
    pub events: Vec<Remark>,
    /// `note` cells.
    pub notes: Vec<Remark>,
}

/// Bits of the flag column.
pub mod flag {
    /// A cell of this reading was blank or a word for "no reading".
    pub const BLANK: u8 = 1;
    /// A cell could not be read as a number and was taken as blank.
    pub const UNREADABLE: u8 = 2;
    /// The reading lies outside the trial's window.
    pub const OUTSIDE_WINDOW: u8 = 4;
    /// A value of this reading was left out as a fault of the logger.
    pub const FAULT: u8 = 8;
}

impl Readings {
    /// A channel's values, if it was logged.
    pub fn channel(&self, channel: Channel) -> Option<&[f64]> {
        self.channels.get(&channel).map(Vec::as_slice)
    }

    /// Number of readings.
    pub fn len(&self) -> usize {
        self.elapsed_s.len()
    }

    /// Sets the flag of every reading outside a window, given by its start and end in s.
    pub fn flag_outside(&mut self, (start, end): (f64, f64)) {
        for (flags, time) in self.flags.iter_mut().zip(&self.elapsed_s) {
            if !(start..=end).contains(time) {
                *flags |= flag::OUTSIDE_WINDOW;
            }
        }
    }

    /// Whether there is no reading.
    pub fn is_empty(&self) -> bool {
        self.elapsed_s.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::{Readings, flag};

    #[test]
    fn readings_outside_the_window_are_flagged() {
        let flags = vec![flag::BLANK, 0, 0, flag::BLANK];
        let mut readings = Readings { elapsed_s: vec![0.0, 60.0, 120.0, 180.0], flags, ..Readings::default() };
        readings.flag_outside((60.0, 120.0));
        assert_eq!(readings.flags, [5, 0, 0, 5]);
    }
}
