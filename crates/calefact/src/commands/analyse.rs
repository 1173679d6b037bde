//! From opened datasets to an analysis, the same for `run` and `check`; they differ in what becomes of each trial.

use super::Job;
use crate::driver::{self, Inputs, Sink};
use crate::progress;
use calefact_analysis::result::Analysis;
use calefact_analysis::{AnalysisHeader, Settings, TrialAccumulator, compare};
use calefact_stats::ErrorSources;

/// Takes every trial and keeps what comparing asks for.
pub(super) trait Collect: Sink {
    /// The rest besides, such as open files.
    type Rest;

    /// Ends the trials.
    fn finish(self) -> Result<(Self::Rest, TrialAccumulator), Self::Error>;
}

/// Standing losses (and the rig) first, then every trial, which goes to what `begin` makes; then the comparisons.
pub(super) fn analyse<C: Collect>(
    job: &Job,
    inputs: &Inputs,
    begin: impl FnOnce(&Settings, &ErrorSources) -> Result<C, C::Error>,
) -> Result<(Analysis, C::Rest), C::Error> {
    let settings = &driver::settings(&job.pipeline, &inputs.sets);
    let bar = progress::bar(inputs.batches.len(), "reading, reducing", job.quiet);
    let ground = driver::groundwork(inputs, settings, || ());
    let reducers = driver::reducers(inputs, settings, &ground);
    let mut trials = begin(settings, &driver::sources(&reducers))?;
    driver::reduce_all(inputs, &reducers, || bar.inc(1), &mut trials)?;
    let (rest, gathered) = trials.finish()?;
    bar.finish_and_clear();
    let header = AnalysisHeader {
        name: job.pipeline.name.clone(),
        title: job.pipeline.title.clone(),
        invented: inputs.apparatus.invented,
    };
    let findings = inputs.findings.clone();
    Ok((compare(header, settings, &inputs.apparatus, gathered, ground.losses.clone(), findings), rest))
}
