//! The trials asked of a log, and the answer for each.

use crate::{Finding, ReadAs, Readings};

/// A trial whose readings are wanted from a log.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Wanted<'a> {
    /// Trial id.
    pub(crate) trial: &'a str,
    /// Date of the register row, for clocks without a date.
    pub(crate) date: Option<&'a str>,
    /// Whether the trial is a burn, whose water mostly starts near the temperature of the air.
    pub(crate) is_burn: bool,
    /// Air temperature of the register row, degC.
    pub(crate) air: Option<f64>,
}

/// The readings of a trial and the findings on them.
#[derive(Debug, Clone, Default)]
pub(crate) struct LogTrial {
    /// Readings, unless an error stopped the trial.
    pub(crate) readings: Option<Readings>,
    /// Findings.
    pub(crate) findings: Vec<Finding>,
    /// How they were read.
    pub(crate) read_as: ReadAs,
}

/// The answer where no trial of a log can be read, for one reason.
pub(super) fn refuse(finding: &Finding, wanted: &[Wanted<'_>]) -> Vec<LogTrial> {
    wanted.iter().map(|_| LogTrial { findings: vec![finding.clone()], ..LogTrial::default() }).collect()
}
