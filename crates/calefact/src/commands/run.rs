//! `run`: read, reduce, compare, write.

use super::{Job, summary};
use crate::args::RunArgs;
use crate::driver::{self, Inputs};
use crate::{Exit, messages, progress};
use calefact_analysis::result::{Analysis, TrialResult, VesselLoss};
use calefact_analysis::{AnalysisHeader, compare};
use calefact_data::TrialKind;
use calefact_report::{ReportError, Stage, Summary, ToolInfo};
use std::path::Path;

/// Runs `run`.
pub(super) fn run(args: RunArgs) -> Exit {
    let Some(job) = Job::settle(&args.pipeline, args.out, args.jobs, args.quiet) else { return Exit::Usage };
    match job.pool.install(|| analyse_and_write(&job)) {
        Ok((analysis, written)) => summary::tell(&job, &analysis, &written),
        Err(error) => {
            messages::say(&format!("error: {error}"));
            Exit::WriteFailed
        }
    }
}

/// The whole job. The stage opens before the long work, so that a folder that cannot be written fails at once.
fn analyse_and_write(job: &Job) -> Result<(Analysis, Summary), ReportError> {
    let stage = Stage::begin(&job.out, job.pipeline.outputs.formats)?;
    let inputs = Inputs::open(&job.pipeline);
    let (trials, losses) = trials(job, &inputs, &stage)?;
    let header = AnalysisHeader {
        name: job.pipeline.name.clone(),
        title: job.pipeline.title.clone(),
        invented: inputs.apparatus.invented,
    };
    let analysis = compare(header, &job.pipeline.settings, &inputs.apparatus, trials, losses, inputs.findings.clone());
    let written = finish(job, stage, &inputs, &analysis)?;
    Ok((analysis, written))
}

/// Standing losses first, then every trial; the readings go to their table on the way.
fn trials(job: &Job, inputs: &Inputs, stage: &Stage) -> Result<(Vec<TrialResult>, Vec<VesselLoss>), ReportError> {
    let settings = &job.pipeline.settings;
    let cooling = inputs.batches_of(TrialKind::StandingLoss);
    let bar = progress::bar(cooling.len() + inputs.batches.len(), "reading, reducing", job.quiet);
    let tick = || bar.inc(1);
    let losses = driver::vessel_losses(inputs, &cooling, settings, tick);
    let mut readings = stage.readings_writer()?;
    let trials = driver::reduce_all(inputs, settings, &losses, tick, |row, values| readings.push(row, values))?;
    readings.finish()?;
    bar.finish_and_clear();
    Ok((trials, losses))
}

/// Paths in the manifest, and the command in it, are as seen from the pipeline file's folder: the same wherever the
/// checkout lies and whatever folder the command was typed in.
fn finish(job: &Job, stage: Stage, inputs: &Inputs, analysis: &Analysis) -> Result<Summary, ReportError> {
    let mut files = inputs.files();
    files.push(job.path.clone());
    let name = job.path.file_name().unwrap_or_default().to_string_lossy();
    let tool = ToolInfo {
        name: env!("CARGO_PKG_NAME").into(),
        version: env!("CARGO_PKG_VERSION").into(),
        command: format!("calefact run {name}"),
    };
    stage.finish(analysis, &files, job.path.parent().unwrap_or(Path::new("")), &tool)
}
