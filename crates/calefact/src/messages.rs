//! What the command says on standard error, and data on standard output where it was asked for.

use crate::Exit;
use calefact_data::{Finding, Severity};
use calefact_report::trial_list;
use std::io::{self, Write};

/// Findings of one code that name a line shown in full before the rest is only counted. Of findings about whole trials the
/// first is shown, and the trials of the others are listed.
const SHOWN: usize = 5;

/// Writes one message line. A message that cannot be written has no one left to read it.
pub fn say(text: &str) {
    let _ = writeln!(io::stderr(), "{text}");
}

/// Lists findings, the worst first; of many alike the first ones, then how many more there are and in which trials.
/// `least` is the least severity shown.
pub fn list_findings(findings: &[Finding], least: Severity) {
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        let wanted = findings.iter().filter(|f| f.severity == severity && severity >= least);
        for alike in by_code(wanted) {
            let shown = if alike.iter().all(|f| f.line.is_none()) { 1 } else { SHOWN };
            alike.iter().take(shown).for_each(|f| say(&format!("{f}\n")));
            if let Some(rest) = alike.get(shown..).filter(|rest| !rest.is_empty()) {
                say(&format!("{}\n", more(rest)));
            }
        }
    }
}

/// Findings by code, in the order of first appearance.
fn by_code<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Vec<&'a Finding>> {
    let mut codes: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings {
        match codes.iter_mut().find(|alike| alike[0].code == finding.code) {
            Some(alike) => alike.push(finding),
            None => codes.push(vec![finding]),
        }
    }
    codes
}

/// "warning caution-creosote: 20 more like this, in 20 trials: b03 to b22".
fn more(rest: &[&Finding]) -> String {
    let trials: Vec<&str> = rest.iter().filter_map(|f| f.trial.as_deref()).collect();
    let place = if trials.is_empty() { String::new() } else { format!(", in {}", trial_list(&trials)) };
    let (code, severity) = (rest[0].code, word(rest[0].severity, 1));
    format!("{severity} {code}: {} more like this{place}", rest.len())
}

/// The number of findings in words: "1 error, 2 warnings, 0 notes".
pub fn count_findings(findings: &[Finding]) -> String {
    let part = |severity| {
        let n = findings.iter().filter(|f| f.severity == severity).count();
        format!("{n} {}", word(severity, n))
    };
    [Severity::Error, Severity::Warning, Severity::Note].map(part).join(", ")
}

/// Whether any finding is an error.
pub fn any_error(findings: &[Finding]) -> bool {
    findings.iter().any(|f| f.severity == Severity::Error)
}

/// Exit code for a failed write to standard output; a reader that has gone away is no failure.
pub fn write_failed(error: &io::Error) -> Exit {
    if error.kind() == io::ErrorKind::BrokenPipe {
        return Exit::Done;
    }
    say(&format!("error: could not write to standard output: {error}"));
    Exit::WriteFailed
}

fn word(severity: Severity, n: usize) -> &'static str {
    match (severity, n) {
        (Severity::Error, 1) => "error",
        (Severity::Error, _) => "errors",
        (Severity::Warning, 1) => "warning",
        (Severity::Warning, _) => "warnings",
        (Severity::Note, 1) => "note",
        (Severity::Note, _) => "notes",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_are_in_words() {
        let findings = [Finding::error("a", "x"), Finding::note("b", "y"), Finding::note("c", "z")];
        assert_eq!(count_findings(&findings), "1 error, 0 warnings, 2 notes");
        assert!(any_error(&findings) && !any_error(&findings[1..]));
    }

    #[test]
    fn findings_alike_are_told_once() {
        let all: Vec<Finding> = ["b02", "b03", "b04", "b05"].map(|t| Finding::note("x", "odd").trial(t)).into();
        let alike: Vec<&Finding> = all.iter().collect();
        assert_eq!(more(&alike), "note x: 4 more like this, in 4 trials: b02 to b05");
        assert_eq!(by_code(all.iter().chain([&Finding::note("y", "z")])).len(), 2);
    }

    #[test]
    fn a_closed_pipe_is_success() {
        assert_eq!(write_failed(&io::ErrorKind::BrokenPipe.into()), Exit::Done);
        assert_eq!(write_failed(&io::ErrorKind::StorageFull.into()), Exit::WriteFailed);
    }
}
