//! `run`: read, reduce, compare, write.

use super::analyse::analyse;
use super::summary::{self, Done};
use super::{Ended, Job, writing::TrialFiles, writing::Writing};
use crate::args::RunArgs;
use crate::driver::Inputs;
use crate::{Exit, messages};
use calefact_analysis::result::Analysis;
use calefact_analysis::{Reducer, Settings};
use calefact_report::words::{Units, Wording};
use calefact_report::{ReportError, Stage, Summary, ToolInfo};

/// Runs `run`.
pub(super) fn run(args: RunArgs) -> Ended {
    let Some(job) = Job::settle(&args.pipeline, args.out, args.jobs, args.quiet) else { return Exit::Usage.into() };
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

/// Paths in the results, and the command in the manifest, are as seen from the pipeline file's folder: the same wherever the
/// checkout lies and whatever folder the command was typed in.
fn finish(
    job: &Job,
    stage: Stage,
    files: TrialFiles,
    inputs: &Inputs,
    analysis: &Analysis,
) -> Result<Summary, ReportError> {
    let mut read = inputs.files();
    read.extend(job.file.clone());
    let name = job.path.file_name().unwrap_or_default().to_string_lossy();
    // Units that were typed, and not named in the pipeline file, are part of the command.
    let units = if job.formats.units == job.pipeline.outputs.formats.units {
        ""
    } else {
        match job.formats.units {
            Units::Metric => " --units metric",
            Units::Us => " --units us",
        }
    };
    let tool = ToolInfo {
        name: env!("CARGO_PKG_NAME").into(),
        version: env!("CARGO_PKG_VERSION").into(),
        command: format!("calefact run {name}{units}"),
    };
    stage.finish(analysis, files, &read, job.base(), &tool)
}
