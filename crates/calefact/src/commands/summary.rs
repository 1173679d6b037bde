//! The few lines a run ends with.

use super::Job;
use crate::{Exit, messages};
use calefact_analysis::result::Analysis;
use calefact_report::Summary;
use calefact_report::words::{Typography, Wording, assumed, comparison_line, missing};

/// Comparisons shown, and reasons for what cannot be given; the others are in the report.
const SHOWN: usize = 8;

/// The outcome of a run.
pub(super) struct Done {
    /// The analysis, as written.
    pub(super) analysis: Analysis,
    /// The files written.
    pub(super) written: Summary,
}

/// Lists what cannot be given and why.
pub(super) fn list_missing(job: &Job, wording: &Wording<'_>, analysis: &Analysis) {
    let reasons = missing(wording, analysis);
    if job.quiet || reasons.is_empty() {
        return;
    }
    for reason in reasons.iter().take(SHOWN) {
        messages::say(&format!("  not given: {}", reason.text));
        reason.hint.iter().for_each(|hint| messages::say(&format!("    hint: {hint}")));
    }
    if reasons.len() > SHOWN {
        messages::say(&format!("  ... and {} more reasons in the report", reasons.len() - SHOWN));
    }
}

/// Lists findings, one line a comparison, and where the report is.
pub(super) fn tell(job: &Job, done: &Done) -> Exit {
    let noticed = &done.analysis.noticed;
    let wording = Wording::of_analysis(&done.analysis, job.formats.units, Typography::Plain);
    messages::list_findings(&wording, noticed, job.shown());
    list_missing(job, &wording, &done.analysis);
    if !job.quiet {
        for line in assumed::lines(&wording, &done.analysis.assumptions) {
            messages::say(&format!("  {line}"));
        }
        let lines: Vec<String> =
            done.analysis.comparisons.iter().filter_map(|c| comparison_line(&wording, c)).collect();
        lines.iter().take(SHOWN).for_each(|line| messages::say(&format!("  {line}")));
        if lines.len() > SHOWN {
            messages::say(&format!("  ... and {} more comparisons in the report", lines.len() - SHOWN));
        }
        messages::say(&format!("trials: {}; {}", done.analysis.trials.len(), messages::count_findings(noticed)));
        messages::say(&format!("report: {}", done.written.page.display()));
    }
    if noticed.any_error() { Exit::DataErrors } else { Exit::Done }
}
