//! `run`: read, reduce, compare, write.

use super::analyse::analyse;
use super::summary::{self, Done};
use super::{Ended, Job, writing::TrialFiles, writing::Writing};
use crate::args::RunArgs;
use crate::driver::Inputs;
use crate::{Exit, messages};
use calefact_analysis::result::Analysis;
use calefact_analysis::{Reducer, Settings};
use calefact_report::words::Wording;
use calefact_report::{ReportError, Stage, Summary};

/// Runs `run`.
pub(super) fn run(args: RunArgs) -> Ended {
    let Some(job) = Job::settle(&args.pipeline, args.out, &args.working) else { return Exit::Usage.into() };
    let job = job.in_units(args.units.map(Into::into));
    let Some(inputs) = job.open() else { return Exit::Usage.into() };
    if inputs.sets.is_empty() {
        messages::list_findings(&Wording::plain(), &inputs.findings.iter().collect(), job.shown());
        messages::say("no report was written: no dataset could be read");
        return Exit::DataErrors.into();
    }
    match job.pool.install(|| analyse_and_write(&job, &inputs)) {
        Ok(done) => Ended::holding(summary::tell(&job, &done), done),
        Err(error) => {
            messages::say(&format!("error: {error}"));
            Exit::WriteFailed.into()
        }
    }
}

/// The whole job. The stage opens before the long work, so that a folder that cannot be written fails at once.
fn analyse_and_write(job: &Job, inputs: &Inputs) -> Result<Done, ReportError> {
    let stage = Stage::begin(&job.out, job.formats)?;
    let begin = |settings: &Settings, reducer: &Reducer<'_>| {
        Writing::begin(&stage, job.base(), &inputs.apparatus, settings, reducer)
    };
    let (analysis, files) = analyse(job, inputs, begin)?;
    let written = finish(job, stage, files, inputs, &analysis)?;
    Ok(Done { analysis, written })
}

/// Paths in the results are as seen from the pipeline file's folder, as the command in the manifest is.
fn finish(
    job: &Job,
    stage: Stage,
    files: TrialFiles,
    inputs: &Inputs,
    analysis: &Analysis,
) -> Result<Summary, ReportError> {
    stage.finish(analysis, files, &job.files(inputs), job.base(), &job.tool("run", ""))
}
