//! `check`: read everything, list what is wrong, write nothing.

use super::{Job, findings_csv::FindingsCsv};
use crate::args::CheckArgs;
use crate::driver::{self, Inputs};
use crate::{Exit, messages, progress};
use calefact_analysis::finding::{Finding, FindingSummary};
use calefact_data::{ApparatusNames, Severity};
use calefact_report::words::{Wording, plural};
use std::io;

/// Runs `check`.
pub(super) fn check(args: &CheckArgs) -> Exit {
    let Some(job) = Job::settle(&args.pipeline, None, args.jobs, args.quiet) else { return Exit::Usage };
    let Some(inputs) = job.open() else { return Exit::Usage };
    let bar = progress::bar(inputs.batches.len(), "reading", job.quiet);
    let names = ApparatusNames::from(&inputs.apparatus);
    let wording = job.wording(&names);
    let read = job.pool.install(|| read(&inputs, || bar.inc(1), args.csv.then_some(wording)));
    bar.finish_and_clear();
    match read {
        Ok(noticed) => tell(&job, &inputs, &noticed, (!args.csv).then_some(wording)),
        Err(error) => messages::write_failed(&error),
    }
}

/// Reads everything; where they are wanted as CSV, the findings go to standard output as they come.
fn read(inputs: &Inputs, tick: impl Fn() + Sync, csv: Option<Wording<'_>>) -> io::Result<FindingSummary> {
    let mut noticed = FindingSummary::default();
    let mut out = csv.map(|wording| FindingsCsv::begin(wording, io::stdout())).transpose()?;
    let mut take = |findings: &[Finding]| {
        noticed.extend(findings);
        out.as_mut().map_or(Ok(()), |out| out.add(findings))
    };
    take(&inputs.findings)?;
    driver::read_all(inputs, tick, |found| take(&found))?;
    out.map_or(Ok(()), FindingsCsv::finish)?;
    Ok(noticed)
}

fn tell(job: &Job, inputs: &Inputs, noticed: &FindingSummary, listed: Option<Wording<'_>>) -> Exit {
    if let Some(wording) = listed {
        messages::list_findings(&wording, noticed, if job.quiet { Severity::Error } else { Severity::Note });
    }
    let trials: usize = inputs.batches.iter().map(|b| b.log.rows.len()).sum();
    if !job.quiet {
        messages::say(&format!(
            "{} in {} read: {}",
            plural(trials, "trial"),
            plural(inputs.batches.len(), "log"),
            messages::count_findings(noticed)
        ));
    }
    if noticed.any_error() { Exit::DataErrors } else { Exit::Done }
}
