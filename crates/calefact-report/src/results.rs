//! Content of a report. How it is written is in [`stage`](crate::stage).

use crate::words::planning::TargetWords;
use calefact_analysis::result::Analysis;

/// Content of a report.
#[derive(Debug, Clone, Copy)]
pub struct Results<'a> {
    /// The analysis.
    pub analysis: &'a Analysis,
    /// What to do next, by comparison.
    pub next: &'a [TargetWords],
}
