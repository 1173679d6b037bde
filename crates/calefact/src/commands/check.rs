//! `check`: read, reduce and compare as `run` does, list what is wrong and what cannot be given, write nothing.

use super::analyse::{Collect, analyse};
use super::{Job, findings_csv::FindingsCsv, summary};
use crate::Exit;
use crate::args::CheckArgs;
use crate::driver::{Inputs, Sink};
use crate::messages::{self, Output};
use calefact_analysis::TrialAccumulator;
use calefact_analysis::finding::{Fact, Finding};
use calefact_analysis::result::{Analysis, TrialResult};
use calefact_data::{ApparatusNames, Readings, RegisterRow, Severity};
use calefact_report::words::understood::trial_line;
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
    let (analysis, (understood, out)) = analyse(job, inputs, |settings, reducer| {
        let out = csv.then(|| FindingsCsv::begin(wording, Output::new())).transpose()?;
        let understood = Understood { wording: Wording { units, ..wording }, lines: Vec::new(), trials: 0 };
        Ok(Listing { out, understood, gathered: TrialAccumulator::new(settings, reducer.sources()) })
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

/// Trials that are told of in a line each.
const SHOWN: usize = 12;

/// What was read of the first trials.
struct Understood<'n> {
    wording: Wording<'n>,
    lines: Vec<String>,
    trials: usize,
}

impl Understood<'_> {
    fn add(&mut self, row: &RegisterRow, readings: &Readings) {
        self.trials += 1;
        if self.trials <= SHOWN {
            self.lines.push(trial_line(&self.wording, row, readings));
        }
    }

    fn tell(&self) {
        self.lines.iter().for_each(|line| messages::say(line));
        if self.trials > SHOWN {
            messages::say(&format!("... and {} more trials", self.trials - SHOWN));
        }
        messages::say("");
    }
}

/// Trials whose findings are listed and whose numbers are kept for comparing.
struct Listing<'n> {
    out: Option<FindingsCsv<'n, Output>>,
    understood: Understood<'n>,
    gathered: TrialAccumulator,
}

impl Sink for Listing<'_> {
    type Error = io::Error;

    fn readings(&mut self, row: &RegisterRow, readings: &Readings) -> io::Result<()> {
        self.understood.add(row, readings);
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
