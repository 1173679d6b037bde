//! Arguments that several subcommands take.

use calefact_report::words;
use clap::{Args as ClapArgs, ValueEnum};
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

/// How a subcommand on a pipeline works.
#[derive(Debug, Clone, PartialEq, ClapArgs)]
pub(crate) struct Working {
    /// How many logs to read at once [default: one per processor]. The results do not depend on it.
    #[arg(long, value_name = "N", value_parser = jobs)]
    pub(crate) jobs: Option<NonZeroUsize>,
    /// Print errors only, and what standard output was asked for.
    #[arg(long, short)]
    pub(crate) quiet: bool,
}

/// Most logs read at once: more threads would only wait for each other.
const MOST_JOBS: usize = 256;

/// Most trials and most readings of a log that are invented: more than any rig gives, and what fits in memory.
const MOST_TRIALS: usize = 1_000_000;
const MOST_ROWS: usize = 10_000_000;

/// Reads `--jobs`.
pub(super) fn jobs(text: &str) -> Result<NonZeroUsize, String> {
    count(text, MOST_JOBS)
}

/// Reads `--trials`.
pub(super) fn trials(text: &str) -> Result<NonZeroUsize, String> {
    count(text, MOST_TRIALS)
}

/// Reads `--rows`.
pub(super) fn rows(text: &str) -> Result<NonZeroUsize, String> {
    count(text, MOST_ROWS)
}

fn count(text: &str, most: usize) -> Result<NonZeroUsize, String> {
    let count = text.parse::<NonZeroUsize>().ok().filter(|n| n.get() <= most);
    count.ok_or_else(|| format!("a whole number from 1 to {most} is wanted"))
}
