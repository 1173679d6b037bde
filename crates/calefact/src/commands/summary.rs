//! The few lines a run ends with.

use super::Job;
use crate::{Exit, messages};
use calefact_analysis::result::{Analysis, Contrast, VerdictKind};
use calefact_data::{Finding, Severity};
use calefact_report::Summary;

/// Verdicts shown in full; the others are in the report.
const VERDICTS: usize = 12;

/// Tells findings, verdicts and where the report is.
pub(super) fn tell(job: &Job, analysis: &Analysis, written: &Summary) -> Exit {
    let findings: Vec<Finding> =
        analysis.findings.iter().chain(analysis.trials.iter().flat_map(|t| &t.findings)).cloned().collect();
    messages::list_findings(&findings, if job.quiet { Severity::Error } else { Severity::Warning });
    if !job.quiet {
        verdicts(analysis);
        messages::say(&format!("{} trials, {}", analysis.trials.len(), messages::count_findings(&findings)));
        messages::say(&format!("report: {}", written.page.display()));
    }
    if messages::any_error(&findings) { Exit::DataErrors } else { Exit::Done }
}

/// The verdicts, settled ones first within each comparison.
fn verdicts(analysis: &Analysis) {
    let mut told: Vec<&Contrast> = analysis.comparisons.iter().flat_map(|c| &c.contrasts).collect();
    told.sort_by_key(|c| c.verdict == VerdictKind::NoConclusion);
    let mut lines: Vec<&str> = told.iter().map(|c| c.sentence.as_str()).collect();
    lines.dedup();
    for line in lines.iter().take(VERDICTS) {
        messages::say(&format!("  {line}"));
    }
    if lines.len() > VERDICTS {
        messages::say(&format!("  ... and {} more in the report", lines.len() - VERDICTS));
    }
}
