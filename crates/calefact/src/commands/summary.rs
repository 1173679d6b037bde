//! The few lines a run ends with.

use super::{Job, run::Done};
use crate::{Exit, messages};
use calefact_report::words::{Typography, Wording, comparison_line};

/// Comparisons told; the others are in the report.
const TOLD: usize = 8;

/// Tells findings, one line a comparison, and where the report is.
pub(super) fn tell(job: &Job, done: &Done) -> Exit {
    let noticed = &done.analysis.noticed;
    let wording = Wording::of_analysis(&done.analysis, job.formats.units, Typography::Plain);
    messages::list_findings(&wording, noticed, job.shown());
    if !job.quiet {
        let lines: Vec<String> =
            done.analysis.comparisons.iter().filter_map(|c| comparison_line(&wording, c)).collect();
        lines.iter().take(TOLD).for_each(|line| messages::say(&format!("  {line}")));
        if lines.len() > TOLD {
            messages::say(&format!("  ... and {} more comparisons in the report", lines.len() - TOLD));
        }
        messages::say(&format!("trials: {}; {}", done.analysis.trials.len(), messages::count_findings(noticed)));
        messages::say(&format!("report: {}", done.written.page.display()));
    }
    if noticed.any_error() { Exit::DataErrors } else { Exit::Done }
}
