//! What the command says on standard error, and data on standard output where it was asked for.

use crate::Exit;
use calefact_analysis::finding::{Finding, FindingGroup, FindingSummary};
use calefact_data::Severity;
use calefact_report::words::{self, Wording, bounded, plural, printable, severity_word, trial_list};
use std::io::{self, Write};

/// Writes one message line, with nothing in it that a terminal obeys. A message that cannot be written has no one left to read
/// it.
pub(crate) fn say(text: &str) {
    let _ = writeln!(io::stderr(), "{}", bounded(printable(text.to_owned())));
}

/// Lists findings, the worst first; of many alike the first ones, then how many more there are and in which trials. Of
/// findings about whole trials one is shown, of those that name a line or neither some. `least` is the least severity shown.
pub(crate) fn list_findings(wording: &Wording<'_>, noticed: &FindingSummary, least: Severity) {
    list_chosen(wording, noticed, least, |_| true);
}

/// The same of the kinds of finding that `is_listed` chooses.
pub(crate) fn list_chosen(
    wording: &Wording<'_>,
    noticed: &FindingSummary,
    least: Severity,
    is_listed: impl Fn(&Finding) -> bool,
) {
    list(noticed, least, is_listed, |finding| words::terminal(wording, finding));
}

/// Lists what is wrong with a pipeline file that is refused.
pub(crate) fn list_refusal(noticed: &FindingSummary) {
    list(noticed, Severity::Note, |_| true, |finding| words::terminal_refused(&Wording::plain(), finding));
}

fn list(
    noticed: &FindingSummary,
    least: Severity,
    is_listed: impl Fn(&Finding) -> bool,
    text: impl Fn(&Finding) -> String,
) {
    for severity in [Severity::Error, Severity::Warning, Severity::Note].into_iter().filter(|s| *s >= least) {
        for alike in noticed.of(severity).filter(|alike| is_listed(alike.leading())) {
            let of_trials = is_of_trials(alike) || !(alike.lines() || alike.trials().is_empty());
            let told = if of_trials { 1 } else { alike.first().len() };
            alike.first().iter().take(told).for_each(|f| say(&format!("{}\n", text(f))));
            if alike.count() > told {
                say(&format!("{}\n", more(alike, told)));
            }
        }
    }
}

/// Whether all say the same of a trial each, so that the list of trials tells the others.
fn is_of_trials(alike: &FindingGroup) -> bool {
    alike.is_uniform() && alike.trials().len() == alike.count()
}

/// "warning caution-creosote: 20 more like this, in 20 trials: b03 to b22".
fn more(alike: &FindingGroup, told: usize) -> String {
    let trials = alike.trials_after(told);
    let place = if trials.is_empty() { String::new() } else { format!(", in {}", trial_list(&trials)) };
    let first = alike.leading();
    format!("{} {}: {} more like this{place}", severity_word(first.severity), first.code(), alike.count() - told)
}

/// The number of findings in words: "1 error, 2 warnings, 0 notes".
pub(crate) fn count_findings(noticed: &FindingSummary) -> String {
    let part = |severity| plural(noticed.count(severity), severity_word(severity));
    [Severity::Error, Severity::Warning, Severity::Note].map(part).join(", ")
}

/// Standard output for data. A reader that has gone away, as `head` does, is no failure and changes no exit code: what is written
/// after that goes nowhere.
pub(crate) struct Output(io::Stdout);

impl Output {
    /// Standard output of this process.
    pub(crate) fn new() -> Self {
        Self(io::stdout())
    }
}

impl Write for Output {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.write(bytes).or_else(|e| if_closed(e, bytes.len()))
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush().or_else(|e| if_closed(e, ()))
    }
}

fn if_closed<T>(error: io::Error, done: T) -> io::Result<T> {
    if error.kind() == io::ErrorKind::BrokenPipe { Ok(done) } else { Err(error) }
}

/// Says why results could not be written, and gives the exit code.
pub(crate) fn not_written(error: &impl std::fmt::Display) -> Exit {
    say(&format!("error: {error}"));
    Exit::WriteFailed
}

/// Exit code for a failed write to standard output; a reader that has gone away is no failure.
pub(crate) fn write_failed(error: &io::Error) -> Exit {
    if error.kind() == io::ErrorKind::BrokenPipe {
        return Exit::Done;
    }
    say(&format!("error: could not write to standard output: {error}"));
    Exit::WriteFailed
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_analysis::fact::TrialFact;

    #[test]
    fn counts_are_in_words() {
        let findings = [
            Finding::error(TrialFact::NoTankReading),
            Finding::note(TrialFact::NoFireOut),
            Finding::note(TrialFact::LossNotPositive),
        ];
        assert_eq!(count_findings(&findings.iter().collect()), "1 error, 0 warnings, 2 notes");
    }

    #[test]
    fn further_findings_of_a_kind_take_one_line() {
        let all = ["b01", "b02", "b03", "b04", "b05"].map(|t| Finding::note(TrialFact::NoFireOut).trial(t));
        let noticed: FindingSummary = all.iter().collect();
        assert_eq!(more(&noticed.kinds()[0], 1), "note no-fire-out: 4 more like this, in 4 trials: b02 to b05");
    }

    #[test]
    fn a_closed_pipe_is_success() {
        assert_eq!(write_failed(&io::ErrorKind::BrokenPipe.into()), Exit::Done);
        assert_eq!(write_failed(&io::ErrorKind::StorageFull.into()), Exit::WriteFailed);
    }
}
