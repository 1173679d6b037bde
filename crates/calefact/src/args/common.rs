//! What several subcommands take.

use calefact_report::words;
use clap::ValueEnum;
use std::num::NonZeroUsize;

/// Units of `--units`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Units {
    /// Degrees Celsius, kilograms, litres, kilowatts.
    Metric,
    /// Degrees Fahrenheit, pounds, US gallons, Btu.
    Us,
}

impl From<Units> for words::Units {
    fn from(units: Units) -> Self {
        match units {
            Units::Metric => Self::Metric,
            Units::Us => Self::Us,
        }
    }
}

/// Most logs read at once: more threads would only wait for each other.
const MOST_JOBS: usize = 256;

/// Reads `--jobs`.
pub(super) fn jobs(text: &str) -> Result<NonZeroUsize, String> {
    let jobs = text.parse::<NonZeroUsize>().ok().filter(|n| n.get() <= MOST_JOBS);
    jobs.ok_or_else(|| format!("a whole number from 1 to {MOST_JOBS} is wanted"))
}
