//! The finite readings of one channel, with what all tests ask of them.

use crate::{Channel, Readings};
use std::borrow::Cow;
use std::ops::Range;

/// Finite readings of a channel, in the order of time.
pub(super) struct Trace<'r> {
    pub(super) channel: Channel,
    /// Rows of the log, where they are not all.
    rows: Option<Vec<usize>>,
    /// Times, s.
    pub(super) t: Cow<'r, [f64]>,
    /// Values, SI.
    pub(super) v: Cow<'r, [f64]>,
}

impl<'r> Trace<'r> {
    /// The finite readings of a channel.
    pub(super) fn new(readings: &'r Readings, channel: Channel) -> Self {
        let (times, values) = (&readings.elapsed_s[..], readings.channel(channel).unwrap_or_default());
        if values.iter().all(|v| v.is_finite()) {
            let times = &times[..values.len()];
            return Self { channel, rows: None, t: times.into(), v: values.into() };
        }
        let rows: Vec<usize> = (0..values.len()).filter(|row| values[*row].is_finite()).collect();
        let (t, v) = rows.iter().map(|row| (times[*row], values[*row])).unzip::<f64, f64, Vec<_>, Vec<_>>();
        Self { channel, rows: Some(rows), t: t.into(), v: v.into() }
    }

    /// Row of the log of a reading.
    pub(super) fn row(&self, reading: usize) -> usize {
        self.rows.as_ref().map_or(reading, |rows| rows[reading])
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
    pub(super) fn runs(&self) -> impl Iterator<Item = Range<usize>> + '_ {
        let mut start = 0;
        std::iter::from_fn(move || {
            let rest = self.v.get(start..)?;
            let value = rest.first()?.to_bits();
            let run = start..start + rest.iter().take_while(|v| v.to_bits() == value).count();
            start = run.end;
            Some(run)
        })
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
        part.map(|reading| self.row(reading)).collect()
    }
}
