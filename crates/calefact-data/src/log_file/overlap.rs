//! Rows whose time lies before the row above. A logger that writes part of its memory twice, or one wrong time, costs these
//! rows; a log that cannot be put in order costs the trial.

use crate::Finding;
use crate::fact::Log;
use std::ops::Range;

/// Readings that a log must have for rows to be left out of it; in fewer each row counts, and which is wrong is not known.
const FEWEST: usize = 12;
/// Share of the readings that may be left out.
const MOST: f64 = 0.2;
/// Rows that may be wrong singly; more in a row must repeat what was read.
const SINGLE: usize = 2;
/// Difference of the tank between a row and its copy, K, and the share of rows in which it must hold.
const SAME_K: f64 = 1.0;
const SAME_SHARE: f64 = 0.8;

/// Rows of a log that step back in time.
#[derive(Debug, Clone, Default)]
pub(super) struct Overlaps {
    segments: Vec<Segment>,
    is_open: bool,
}

/// Rows from a step back until the log goes on.
#[derive(Debug, Clone)]
struct Segment {
    /// The step back, with its line and column.
    step: (Log, u64, u64),
    /// Readings before it.
    before: usize,
    /// Time and tank of its rows.
    rows: Vec<(f64, f64)>,
}

impl Overlaps {
    /// Takes a row that lies before the row above; `step` is what it would be alone, `before` counts the readings so far.
    pub(super) fn add(&mut self, time: f64, before: usize, step: (Log, u64, u64)) {
        if !self.is_open {
            self.segments.push(Segment { step, before, rows: Vec::new() });
            self.is_open = true;
        }
        if let Some(segment) = self.segments.last_mut() {
            segment.rows.push((time, f64::NAN));
        }
    }

    /// The tank of the row just taken.
    pub(super) fn set_tank(&mut self, tank: f64) {
        if let Some(row) = self.segments.last_mut().and_then(|s| s.rows.last_mut()) {
            row.1 = tank;
        }
    }

    /// The log goes on after its last reading.
    pub(super) fn close(&mut self) {
        self.is_open = false;
    }

    /// One finding: rows left out, or a time that runs backwards; none where the times only rise.
    pub(super) fn finding(&self, times: &[f64], tank: &[f64]) -> Option<Finding> {
        let (step, line, column) = self.segments.first()?.step.clone();
        let rows: usize = self.segments.iter().map(|s| s.rows.len()).sum();
        let few = rows <= SINGLE.max((MOST * times.len() as f64) as usize);
        let harmless = times.len() >= FEWEST && few && self.segments.iter().all(|s| s.is_harmless(times, tank));
        let fact = match step {
            Log::TimeBackwards { by_s, .. } if harmless => Log::RowsOverlap { rows, by_s },
            backwards => backwards,
        };
        Some(Finding::from(fact).at("", Some(line), Some(column)))
    }
}

impl Segment {
    /// Whether the rows lie among rows already read. After one time far too late none would: that time would be the wrong one.
    /// More rows than may be wrong singly must also be copies of those.
    fn is_harmless(&self, times: &[f64], tank: &[f64]) -> bool {
        let before = &times[..self.before.min(times.len())];
        let Some((peak, _)) = before.split_last() else { return false };
        let first = self.rows.iter().map(|r| r.0).fold(*peak, f64::min);
        let among = before.iter().filter(|t| (first..*peak).contains(*t)).count();
        2 * among >= self.rows.len() && (self.rows.len() <= SINGLE || self.is_copy(times, tank, 0..before.len()))
    }

    /// Whether the rows rise in time and repeat the tank of those already read.
    fn is_copy(&self, times: &[f64], tank: &[f64], before: Range<usize>) -> bool {
        let rise = self.rows.windows(2).all(|w| w[0].0 < w[1].0);
        let (Some(times), Some(tank)) = (times.get(before.clone()), tank.get(before)) else { return false };
        let is_same = |(time, value): &&(f64, f64)| {
            let after = times.partition_point(|t| t < time).min(times.len() - 1);
            let beside = [after, after.saturating_sub(1)];
            beside.iter().any(|i| (tank[*i] - value).abs() <= SAME_K)
        };
        let same = self.rows.iter().filter(is_same).count();
        rise && same as f64 >= SAME_SHARE * self.rows.len() as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A log of a reading a minute whose tank warms by 2 K a minute, with some rows that step back; gives the code found.
    fn code(readings: usize, at: usize, rows: &[(f64, f64)]) -> &'static str {
        let times: Vec<f64> = (0..readings).map(|i| 60.0 * i as f64).collect();
        let tank: Vec<f64> = (0..readings).map(|i| 10.0 + 2.0 * i as f64).collect();
        code_of(&times, &tank, at, rows)
    }

    fn code_of(times: &[f64], tank: &[f64], at: usize, rows: &[(f64, f64)]) -> &'static str {
        let mut overlaps = Overlaps::default();
        for (time, value) in rows {
            let step = Log::TimeBackwards { cell: "1".into(), by_s: 60.0, previous_line: 2 };
            overlaps.add(*time, at, (step, 9, 1));
            overlaps.set_tank(*value);
        }
        overlaps.finding(times, tank).map_or("none", |f| f.code())
    }

    #[test]
    fn rows_written_twice_are_left_out() {
        let copy: Vec<(f64, f64)> = (25..30).map(|i| (60.0 * f64::from(i), 10.0 + 2.0 * f64::from(i))).collect();
        assert_eq!(code(60, 30, &copy), "rows-overlap");
        assert_eq!(code(20, 10, &copy[..0]), "none");
        assert_eq!(code(60, 30, &[(120.0, 66.0)]), "rows-overlap", "one wrong time");
    }

    #[test]
    fn logs_that_cannot_be_put_in_order_run_backwards() {
        assert_eq!(code(11, 5, &[(120.0, 14.0)]), "time-backwards", "a log by hand");
        let later: Vec<(f64, f64)> = (25..30).map(|i| (60.0 * f64::from(i), 30.0 + 2.0 * f64::from(i))).collect();
        assert_eq!(code(60, 30, &later), "time-backwards", "a clock put back");
        let many: Vec<(f64, f64)> = (10..30).map(|i| (60.0 * f64::from(i), 10.0 + 2.0 * f64::from(i))).collect();
        assert_eq!(code(60, 30, &many), "time-backwards", "a third of the log");
    }

    /// Minute 20 is written as 200: the rows after it are right, and it is wrong.
    #[test]
    fn rows_after_a_time_far_too_late_are_not_the_wrong_ones() {
        let mut times: Vec<f64> = (0..40).map(|i| 60.0 * f64::from(i)).collect();
        times[39] = 12_000.0;
        let tank: Vec<f64> = (0..40).map(|i| 10.0 + 2.0 * f64::from(i)).collect();
        assert_eq!(code_of(&times, &tank, 40, &[(2400.0, 90.0), (2460.0, 92.0)]), "time-backwards");
    }
}
