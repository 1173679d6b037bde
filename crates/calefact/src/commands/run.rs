//! `run`: read, reduce, compare, write.

use super::{Job, places, summary};
use crate::args::RunArgs;
use crate::driver::{self, Inputs};
use crate::{Exit, messages, progress};
use calefact_analysis::result::{Analysis, TrialResult, VesselLoss};
use calefact_analysis::{AnalysisHeader, compare};
use calefact_data::Finding;
use calefact_report::{ReadingsFiles, ReportError, Stage, Summary, ToolInfo};

/// Runs `run`.
pub(super) fn run(args: RunArgs) -> Exit {
    let Some(job) = Job::settle(&args.pipeline, args.out, args.jobs, args.quiet) else { return Exit::Usage };
    match job.pool.install(|| analyse_and_write(&job)) {
        Ok(done) => {
            let exit = summary::tell(&job, &done);
            // The program ends here: giving back the memory of thousands of trials piece by piece would only delay it.
            std::mem::forget(done);
            exit
        }
        Err(error) => {
            messages::say(&format!("error: {error}"));
            Exit::WriteFailed
        }
    }
}

/// What a run came to.
pub(super) struct Done {
    /// The analysis, as written.
    pub(super) analysis: Analysis,
    /// Every finding, with paths as the user can type them.
    pub(super) findings: Vec<Finding>,
    /// What was written, and where.
    pub(super) written: Summary,
}

/// The whole job. The stage opens before the long work, so that a folder that cannot be written fails at once.
fn analyse_and_write(job: &Job) -> Result<Done, ReportError> {
    let stage = Stage::begin(&job.out, job.pipeline.outputs.formats)?;
    let inputs = Inputs::open(&job.pipeline);
    let (trials, losses, readings) = trials(job, &inputs, &stage)?;
    let header = AnalysisHeader {
        name: job.pipeline.name.clone(),
        title: job.pipeline.title.clone(),
        invented: inputs.apparatus.invented,
    };
    let mut analysis =
        compare(header, &job.pipeline.settings, &inputs.apparatus, trials, losses, inputs.findings.clone());
    let findings = analysis.findings.iter().chain(analysis.trials.iter().flat_map(|t| &t.findings)).cloned().collect();
    places::turn(&mut analysis, job.base());
    let written = finish(job, stage, readings, &inputs, &analysis)?;
    Ok(Done { analysis, findings, written })
}

/// Trials, losses of the vessels, and the readings as far as they are written.
type Reduced = (Vec<TrialResult>, Vec<VesselLoss>, ReadingsFiles);

/// Standing losses (and the rig) first, then every trial; the readings go to their table on the way.
fn trials(job: &Job, inputs: &Inputs, stage: &Stage) -> Result<Reduced, ReportError> {
    let settings = &job.pipeline.settings;
    let bar = progress::bar(inputs.batches.len(), "reading, reducing", job.quiet);
    let ground = driver::groundwork(inputs, settings, || ());
    let mut readings = stage.readings_writer()?;
    let trials =
        driver::reduce_all(inputs, settings, &ground, || bar.inc(1), |row, values| readings.push(row, values))?;
    let readings = readings.finish()?;
    bar.finish_and_clear();
    Ok((trials, ground.losses, readings))
}

/// Paths in the manifest, and the command in it, are as seen from the pipeline file's folder: the same wherever the
/// checkout lies and whatever folder the command was typed in.
fn finish(
    job: &Job,
    stage: Stage,
    readings: ReadingsFiles,
    inputs: &Inputs,
    analysis: &Analysis,
) -> Result<Summary, ReportError> {
    let mut files = inputs.files();
    files.push(job.path.clone());
    let name = job.path.file_name().unwrap_or_default().to_string_lossy();
    let tool = ToolInfo {
        name: env!("CARGO_PKG_NAME").into(),
        version: env!("CARGO_PKG_VERSION").into(),
        command: format!("calefact run {name}"),
    };
    stage.finish(analysis, readings, &files, job.base(), &tool)
}
