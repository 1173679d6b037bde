//! Reading logs: one file, one or several trials, into [`Readings`].
//!
//! A log is read in one pass over its bytes. The layout (encoding, delimiter, decimal sign, lines above the header) is
//! found out where `dataset.toml` does not state it; the header may come again further down with other units. What is
//! wrong becomes a finding with the line; only errors stop a trial.

mod clock;
mod columns;
mod density;
mod elapsed;
mod finish;
mod layout;
mod problems;
mod reader;
mod series;
mod times;

use crate::dataset_file::LogSettings;
use crate::text::{binary, decode};
use crate::{Finding, Readings};
use reader::Reader;
use std::path::Path;

/// A trial whose readings are wanted from a log.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// Trial id.
    pub trial: &'a str,
    /// Date of the register row, for clocks without a date.
    pub date: Option<&'a str>,
}

/// What was read for one trial.
#[derive(Debug, Clone, Default)]
pub struct LogTrial {
    /// Readings, unless an error stopped the trial.
    pub readings: Option<Readings>,
    /// What was noticed.
    pub findings: Vec<Finding>,
}

/// Reads the bytes of a log for the wanted trials, in their order; `path` is only named in findings.
pub fn read(path: &Path, bytes: &[u8], settings: &LogSettings, wanted: &[Wanted<'_>]) -> Vec<LogTrial> {
    if wanted.is_empty() {
        return Vec::new();
    }
    let decoded = decode::decode(bytes, settings.style.encoding);
    let not_text = binary::finding(bytes, &decoded.text).map(|f| f.action("trial left out"));
    let guessed = decoded.guessed.filter(|_| not_text.is_none());
    let layout = not_text.map_or_else(|| layout::find(&decoded.text, settings), |finding| Err(finding.into()));
    let mut trials = match layout {
        Ok(layout) => {
            let rows = memchr::memchr_iter(b'\n', &decoded.text).count() / wanted.len() + 1;
            Reader::new(&layout, settings, wanted, rows).read(&decoded.text)
        }
        Err(finding) => {
            wanted.iter().map(|_| LogTrial { readings: None, findings: vec![(*finding).clone()] }).collect()
        }
    };
    for (trial, w) in trials.iter_mut().zip(wanted) {
        trial.findings.extend(guessed.map(decode::guess_note));
        for finding in &mut trial.findings {
            finding.trial = Some(w.trial.into());
            finding.file = Some(path.into());
        }
        trial.findings.sort_by_key(|f| (std::cmp::Reverse(f.severity), f.line, f.column));
    }
    trials
}

#[cfg(test)]
mod tests;
