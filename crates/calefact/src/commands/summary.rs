//! The few lines a run ends with.

use super::{Job, run::Done};
use crate::{Exit, messages};
use calefact_analysis::result::{Analysis, Contrast, ContrastKind, VerdictKind};

/// Verdicts shown in full; the others are in the report.
const VERDICTS: usize = 12;

/// Tells findings, verdicts and where the report is.
pub(super) fn tell(job: &Job, done: &Done) -> Exit {
    messages::list_findings(&done.findings, job.shown());
    if !job.quiet {
        verdicts(&done.analysis);
        messages::say(&format!("trials: {}; {}", done.analysis.trials.len(), messages::count_findings(&done.findings)));
        messages::say(&format!("report: {}", done.written.page.display()));
    }
    if messages::any_error(&done.findings) { Exit::DataErrors } else { Exit::Done }
}

/// The verdicts on the first quantity of each comparison, as differences, settled ones first.
fn verdicts(analysis: &Analysis) {
    let mut told: Vec<&Contrast> = Vec::new();
    for comparison in &analysis.comparisons {
        let first = comparison.contrasts.first().map(|k| k.quantity);
        let wanted = |k: &&Contrast| Some(k.quantity) == first && k.kind == ContrastKind::Difference;
        told.extend(comparison.contrasts.iter().filter(wanted));
    }
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
