//! `check`: read everything, list what is wrong, write nothing.

use super::{Job, findings_csv};
use crate::args::CheckArgs;
use crate::driver::{self, Inputs};
use crate::{Exit, messages, progress};
use calefact_data::{Finding, Severity};
use std::io;

/// Runs `check`.
pub(super) fn check(args: &CheckArgs) -> Exit {
    let Some(job) = Job::settle(&args.pipeline, None, args.jobs, args.quiet) else { return Exit::Usage };
    let mut inputs = Inputs::open(&job.pipeline);
    let bar = progress::bar(inputs.batches.len(), "reading", job.quiet);
    let mut found = job.pool.install(|| driver::read_all(&inputs, || bar.inc(1)));
    bar.finish_and_clear();
    let mut findings = std::mem::take(&mut inputs.findings);
    findings.append(&mut found);
    tell(&job, &inputs, &findings, args.csv)
}

fn tell(job: &Job, inputs: &Inputs, findings: &[Finding], csv: bool) -> Exit {
    if csv && let Err(error) = findings_csv::write(io::stdout().lock(), findings) {
        return messages::write_failed(&error);
    }
    if !csv {
        messages::list_findings(findings, if job.quiet { Severity::Error } else { Severity::Note });
    }
    let trials: usize = inputs.batches.iter().map(|b| b.log.rows.len()).sum();
    if !job.quiet {
        messages::say(&format!(
            "{trials} trials in {} logs read: {}",
            inputs.batches.len(),
            messages::count_findings(findings)
        ));
    }
    if messages::any_error(findings) { Exit::DataErrors } else { Exit::Done }
}
