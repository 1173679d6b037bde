//! `run`: read, reduce, compare, write.

use super::analyse::analyse;
use super::summary::{self, Done};
use super::{Ended, Job, plan_request, writing::Writing};
use crate::args::{PlanWishes, RunArgs};
use crate::driver::Inputs;
use crate::{Exit, messages};
use calefact_analysis::Settings;
use calefact_analysis::planning::{Past, PlanRequest, targets};
use calefact_analysis::result::Analysis;
use calefact_report::words::planning::{self, TargetWords};
use calefact_report::words::{Typography, Wording};
use calefact_report::{ReportError, Results, Stage};
use calefact_stats::ErrorSources;
use std::path::Path;

/// Runs `run`.
pub(super) fn run(args: RunArgs) -> Ended {
    let is_default = args.out.is_none();
    let Some(job) = Job::settle(args.pipeline.as_deref(), args.out, &args.working) else { return Exit::Usage.into() };
    if is_default && !job.may_write(&job.out) {
        return Exit::Usage.into();
    }
    let job = job.in_units(args.units.map(Into::into));
    let Some(inputs) = job.open() else { return Exit::Usage.into() };
    let Some(request) = request(&job) else { return Exit::Usage.into() };
    if inputs.sets.is_empty() {
        messages::list_findings(&Wording::plain(), &inputs.findings.iter().collect(), job.shown());
        messages::say("no report was written: no dataset could be read");
        return Exit::DataErrors.into();
    }
    match job.pool.install(|| analyse_and_write(&job, &inputs, &request, &job.out)) {
        Ok(done) => Ended::holding(summary::tell(&job, &done), done),
        Err(error) => messages::not_written(&error).into(),
    }
}

/// The plan that the page shows, by the pipeline alone.
pub(super) fn request(job: &Job) -> Option<PlanRequest> {
    plan_request::request(job, &PlanWishes::default())
}

/// The whole job, with its results in a folder. The stage opens before the long work, so that a folder that cannot be written
/// fails at once.
pub(super) fn analyse_and_write(
    job: &Job,
    inputs: &Inputs,
    request: &PlanRequest,
    out: &Path,
) -> Result<Done, ReportError> {
    let stage = Stage::begin(out, job.formats)?;
    let begin = |settings: &Settings, sources: &ErrorSources| {
        Writing::begin(&stage, job.base(), &inputs.apparatus, settings, sources)
    };
    let (analysis, files) = analyse(job, inputs, begin)?;
    let next = next_steps(job, inputs, &analysis, request);
    let results = Results { analysis: &analysis, next: &next };
    // Paths in the results are as seen from the pipeline file's folder, as the command in the manifest is.
    let written = stage.finish(results, files, &job.files(inputs), job.base(), &job.tool("run", ""))?;
    Ok(Done { analysis, written })
}

/// What to do next, as `plan` says it, of the comparisons that have trials; of all where none has.
fn next_steps(job: &Job, inputs: &Inputs, analysis: &Analysis, request: &PlanRequest) -> Vec<TargetWords> {
    let (apparatus, requests) = (&inputs.apparatus, &job.pipeline.settings.comparisons[..]);
    let past = Past { analysis, requests, apparatus, rows: &[] };
    let wording = Wording::of_analysis(analysis, job.formats.units, Typography::Page);
    let mut targets = targets(&past, request);
    if !analysis.comparisons.is_empty() {
        targets.retain(|t| analysis.comparisons.iter().any(|c| c.factor == t.factor && c.only == t.only));
    }
    planning::targets(&wording, analysis, apparatus, &targets)
}
