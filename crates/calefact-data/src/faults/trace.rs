//! The finite readings of one channel, with what all tests ask of them.

use crate::{Channel, Readings};
use std::ops::Range;

/// Finite readings of a channel, in the order of time.
pub(super) struct Trace {
    pub(super) channel: Channel,
    /// Rows of the log.
    pub(super) rows: Vec<usize>,
    /// Times, s.
    pub(super) t: Vec<f64>,
    /// Values, SI.
    pub(super) v: Vec<f64>,
}

impl Trace {
    /// The finite readings of a channel.
    pub(super) fn new(readings: &Readings, channel: Channel) -> Self {
        let values = readings.channel(channel).unwrap_or_default();
        let rows: Vec<usize> = (0..values.len()).filter(|row| values[*row].is_finite()).collect();
        let t = rows.iter().map(|row| readings.elapsed_s[*row]).collect();
        let v = rows.iter().map(|row| values[*row]).collect();
        Self { channel, rows, t, v }
    }

    /// Number of readings.
    pub(super) fn len(&self) -> usize {
        self.v.len()
    }

    /// Highest less lowest value of some readings; zero without any.
    pub(super) fn range(&self, part: Range<usize>) -> f64 {
        let (low, high) =
            self.v[part].iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(*v), h.max(*v)));
        (high - low).max(0.0)
    }

    /// Readings between two times.
    pub(super) fn between(&self, from: f64, to: f64) -> Range<usize> {
        let start = self.t.partition_point(|t| *t < from);
        start..self.t.partition_point(|t| *t <= to).max(start)
    }

    /// Runs of readings that are equal to the last digit, of one reading or more.
    pub(super) fn runs(&self) -> Vec<Range<usize>> {
        let mut runs: Vec<Range<usize>> = Vec::new();
        for i in 0..self.len() {
            match runs.last_mut() {
                Some(run) if self.v[run.start].to_bits() == self.v[i].to_bits() => run.end = i + 1,
                _ => runs.push(i..i + 1),
            }
        }
        runs
    }

    /// The rate that three quarters of the steps from reading to reading stay below, unit/s: the pace of the channel, which
    /// a few faulty readings do not raise.
    pub(super) fn pace(&self) -> f64 {
        let mut rates: Vec<f64> =
            self.v.windows(2).zip(self.t.windows(2)).map(|(v, t)| ((v[1] - v[0]) / (t[1] - t[0])).abs()).collect();
        let at = rates.len() * 3 / 4;
        if at >= rates.len() { 0.0 } else { *rates.select_nth_unstable_by(at, f64::total_cmp).1 }
    }

    /// Rows of the log of some readings.
    pub(super) fn rows_of(&self, part: Range<usize>) -> Vec<usize> {
        self.rows[part].to_vec()
    }
}
