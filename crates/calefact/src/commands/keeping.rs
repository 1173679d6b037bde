//! An analysis of which nothing is written: what comparing asks of each trial is kept, and no more.

use super::Job;
use super::analyse::{Collect, analyse};
use crate::driver::{Inputs, Sink};
use calefact_analysis::TrialAccumulator;
use calefact_analysis::result::{Analysis, TrialResult};
use calefact_data::{ReadAs, Readings, RegisterRow};
use std::convert::Infallible;

/// The analysis of a job's datasets.
pub(super) fn analysed(job: &Job, inputs: &Inputs) -> Analysis {
    let begin = |settings: &_, sources: &_| Ok(Keeping(TrialAccumulator::new(settings, sources)));
    let Ok((analysis, ())) = job.pool.install(|| analyse(job, inputs, begin));
    analysis
}

/// Trials whose numbers are kept, and nothing else.
struct Keeping(TrialAccumulator);

impl Sink for Keeping {
    type Error = Infallible;

    fn readings(&mut self, _: &RegisterRow, _: &Readings, _: &ReadAs) -> Result<(), Infallible> {
        Ok(())
    }

    fn result(&mut self, result: TrialResult) -> Result<(), Infallible> {
        self.0.extend([result]);
        Ok(())
    }
}

impl Collect for Keeping {
    type Rest = ();

    fn finish(self) -> Result<((), TrialAccumulator), Infallible> {
        Ok(((), self.0))
    }
}
