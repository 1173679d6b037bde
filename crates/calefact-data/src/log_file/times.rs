//! Time cells: the time a cell gives, or why it gives none.

use crate::fact::{ClockForm, Log, TwoReadings};
use crate::text::cells::excerpt;
use jiff::civil::Date;

/// A time cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum TimeCell {
    /// Seconds.
    Seconds(f64),
    /// Seconds of a time that does not exist since clocks went forward past it, as if this clock had not been put forward.
    Skipped(f64),
    /// Seconds of a time that a clock of twelve hours shows after noon or midnight, and since midnight.
    PastTwelve {
        /// Seconds.
        seconds: f64,
        /// Seconds since midnight.
        of_day: f64,
    },
    /// A date that may be read two ways.
    TwoDates([Date; 2]),
    /// Nothing.
    Blank,
    /// Two parts that may be hours and minutes or minutes and seconds.
    Ambiguous,
    /// A number that may be read two ways.
    TwoReadings,
    /// A time of another form than those above; both forms.
    Mixed(ClockForm, ClockForm),
    /// Something else.
    Unreadable,
}

impl TimeCell {
    /// The time in s, if the cell gives one.
    pub(super) const fn seconds(self) -> Option<f64> {
        match self {
            Self::Seconds(s) | Self::Skipped(s) | Self::PastTwelve { seconds: s, .. } => Some(s),
            Self::TwoDates(_)
            | Self::Blank
            | Self::Ambiguous
            | Self::TwoReadings
            | Self::Mixed(..)
            | Self::Unreadable => None,
        }
    }

    /// The fact about a cell that does not simply give a time.
    pub(super) fn problem(self, cell: &[u8]) -> Option<Log> {
        match self {
            Self::Seconds(_) => None,
            Self::Skipped(_) => Some(Log::TimeSkipped(excerpt(cell))),
            Self::PastTwelve { of_day, .. } => Some(Log::TimePastTwelve { cell: excerpt(cell), of_day_s: of_day }),
            Self::TwoDates(dates) => {
                Some(Log::TimeTwoDates { cell: excerpt(cell), dates: dates.map(|d| d.to_string()) })
            }
            Self::Blank => Some(Log::TimeBlank),
            Self::Ambiguous => Some(Log::TimeAmbiguous(excerpt(cell))),
            Self::TwoReadings => two_readings("elapsed", cell),
            Self::Mixed(form, above) => Some(Log::TimeMixed { cell: excerpt(cell), form, above }),
            Self::Unreadable => Some(Log::TimeUnreadable(excerpt(cell))),
        }
    }
}

/// The fact of a cell that has two readings.
pub(super) fn two_readings(column: &'static str, cell: &[u8]) -> Option<Log> {
    Some(Log::TwoReadings { column, cell: excerpt(cell), readings: TwoReadings::new(cell)? })
}
