//! A clock column beside `elapsed`: both have to show the same time.

use super::clock::Clock;
use crate::fact::Log;

/// A clock read to the minute and a time rounded to the minute may differ by so much, s.
const APART_S: f64 = 120.0;
/// More than this part of the time is no rounding.
const APART: f64 = 0.05;

/// Compares the clock of a trial with its elapsed time.
#[derive(Debug, Clone)]
pub(super) struct ClockCheck<'a> {
    clock: Clock<'a>,
    /// Elapsed time and clock of the first reading, s.
    first: Option<(f64, f64)>,
}

impl<'a> ClockCheck<'a> {
    /// A check by a clock that has read nothing.
    pub(super) const fn new(clock: Clock<'a>) -> Self {
        Self { clock, first: None }
    }

    /// The fact of a reading whose two times since the first reading differ. A cell without a time is no witness.
    pub(super) fn disagreement(&mut self, elapsed: f64, cell: &[u8]) -> Option<Log> {
        let clock = self.clock.read(cell).seconds()?;
        let (first_elapsed, first_clock) = *self.first.get_or_insert((elapsed, clock));
        let (elapsed_s, clock_s) = (elapsed - first_elapsed, clock - first_clock);
        let limit = APART_S.max(APART * elapsed_s.abs().max(clock_s.abs()));
        ((elapsed_s - clock_s).abs() > limit).then_some(Log::TimesDisagree { elapsed_s, clock_s })
    }
}
