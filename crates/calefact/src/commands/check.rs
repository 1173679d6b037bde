//! `check`: read, reduce and compare as `run` does, list what is wrong and what cannot be given, write nothing.

use super::analyse::{Collect, analyse};
use super::{Job, findings_csv::FindingsCsv, summary, understood::Understood};
use crate::Exit;
use crate::args::CheckArgs;
use crate::driver::{Inputs, Sink};
use crate::messages::{self, Output};
use calefact_analysis::TrialAccumulator;
use calefact_analysis::finding::{Fact, Finding};
use calefact_analysis::result::{Analysis, TrialResult};
use calefact_data::{ApparatusNames, ReadAs, Readings, RegisterRow, Severity};
use calefact_report::words::{Typography, Wording, plural};
use std::io;

/// Runs `check`.
pub(super) fn check(args: &CheckArgs) -> Exit {
    let Some(job) = Job::settle(args.pipeline.as_deref(), None, &args.working) else { return Exit::Usage };
    let Some(inputs) = job.open() else { return Exit::Usage };
    match job.pool.install(|| analysed(&job, &inputs, args.csv)) {
        Ok(analysis) => tell(&job, &inputs, &analysis, args.csv),
        Err(error) => messages::write_failed(&error),
    }
}

/// The analysis; where findings are wanted as CSV, they go to standard output as they come, in the order of the report's
/// table, and what cannot be given after them.
fn analysed(job: &Job, inputs: &Inputs, csv: bool) -> io::Result<Analysis> {
    let (names, currency) = (ApparatusNames::from(&inputs.apparatus), inputs.apparatus.currency());
    let wording = Wording { names: &names, currency: currency.as_deref(), ..Wording::plain() };
    let units = job.formats.units;
    let (analysis, (understood, out)) = analyse(job, inputs, |settings, sources| {
        let out = csv.then(|| FindingsCsv::begin(wording, Output::new())).transpose()?;
        let understood = Understood::new(Wording { units, ..wording });
        Ok(Listing { out, understood, gathered: TrialAccumulator::new(settings, sources) })
    })?;
    if !csv && !job.quiet {
        understood.tell();
    }
    if let Some(mut out) = out {
        out.add(&analysis.findings)?;
        out.add_missing(&analysis)?;
        out.finish()?;
    }
    Ok(analysis)
}

/// Trials whose findings are listed and whose numbers are kept for comparing.
struct Listing<'n> {
    out: Option<FindingsCsv<'n, Output>>,
    understood: Understood<'n>,
    gathered: TrialAccumulator,
}

impl Sink for Listing<'_> {
    type Error = io::Error;

    fn readings(&mut self, row: &RegisterRow, readings: &Readings, read_as: &ReadAs) -> io::Result<()> {
        self.understood.add(row, readings, read_as);
        Ok(())
    }

    fn result(&mut self, result: TrialResult) -> io::Result<()> {
        self.out.as_mut().map_or(Ok(()), |out| out.add(&result.findings))?;
        self.gathered.extend([result]);
        Ok(())
    }
}

impl<'n> Collect for Listing<'n> {
    type Rest = (Understood<'n>, Option<FindingsCsv<'n, Output>>);

    fn finish(self) -> io::Result<(Self::Rest, TrialAccumulator)> {
        Ok(((self.understood, self.out), self.gathered))
    }
}

fn tell(job: &Job, inputs: &Inputs, analysis: &Analysis, csv: bool) -> Exit {
    if !csv {
        let wording = Wording::of_analysis(analysis, job.formats.units, Typography::Plain);
        let least = if job.quiet { Severity::Error } else { Severity::Note };
        messages::list_chosen(&wording, &analysis.noticed, least, is_listed);
        summary::list_missing(job, &wording, analysis);
    }
    if !job.quiet {
        messages::say(&format!(
            "{} in {} checked: {}",
            plural(analysis.trials.len(), "trial"),
            plural(inputs.batches.len(), "log"),
            messages::count_findings(&analysis.noticed)
        ));
    }
    if analysis.noticed.any_error() { Exit::DataErrors } else { Exit::Done }
}

/// Notes of caution are for the report: they hold for any fire.
fn is_listed(finding: &Finding) -> bool {
    finding.severity > Severity::Note || !matches!(finding.fact, Fact::Caution(_))
}
