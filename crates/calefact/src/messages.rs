//! What the command says on standard error, and data on standard output where it was asked for.

use crate::Exit;
use calefact_data::{Finding, Severity};
use std::collections::BTreeMap;
use std::io::{self, Write};

/// Findings of one code shown in full before the rest is only counted.
const SHOWN: usize = 5;

/// Writes one message line. A message that cannot be written has no one left to read it.
pub fn say(text: &str) {
    let _ = writeln!(io::stderr(), "{text}");
}

/// Lists findings, the worst first, and counts those not shown, by code. `least` is the least severity shown in full.
pub fn list_findings(findings: &[Finding], least: Severity) {
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
        for finding in findings.iter().filter(|f| f.severity == severity && severity >= least) {
            let count = seen.entry(finding.code).or_insert(0);
            *count += 1;
            if *count <= SHOWN {
                say(&format!("{finding}\n"));
            }
        }
        for (code, count) in seen.iter().filter(|(_, count)| **count > SHOWN) {
            say(&format!("{}[{code}]: {} more like these\n", word(severity, 1), count - SHOWN));
        }
    }
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
    fn a_closed_pipe_is_success() {
        assert_eq!(write_failed(&io::ErrorKind::BrokenPipe.into()), Exit::Done);
        assert_eq!(write_failed(&io::ErrorKind::StorageFull.into()), Exit::WriteFailed);
    }
}
