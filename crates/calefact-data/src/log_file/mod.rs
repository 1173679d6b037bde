//! Reading logs: one file, one or several trials, into [`Readings`].
//!
//! A log is read in one pass over its bytes. The layout (encoding, delimiter, decimal sign, lines above the header) is
//! found where `dataset.toml` does not state it; the header may be repeated further down with other units. Problems
//! become findings with their lines; only errors stop a trial.

mod assumed;
mod clock;
mod clock_check;
mod columns;
mod elapsed;
mod finish;
mod headers;
mod layout;
mod overlap;
mod problems;
mod read_as;
mod reader;
mod series;
mod skipped_hour;
mod stamp;
mod times;
mod trial;
mod unregistered;

use crate::Finding;
use crate::fact::TableFile;
use crate::layout::LogSettings;
use crate::personal::TextTable;
use crate::text::decode;
use reader::Reader;
use std::path::Path;

pub(crate) use stamp::date_part;
pub(crate) use trial::{LogTrial, Wanted};

/// Reads the bytes of a log for the wanted trials, in their order; `path` is only named in findings.
pub(crate) fn read(path: &Path, bytes: &[u8], settings: &LogSettings, wanted: &[Wanted<'_>]) -> Vec<LogTrial> {
    if wanted.is_empty() {
        return Vec::new();
    }
    let mut trials = match decode::decode(bytes, settings.style.encoding, TableFile::Log) {
        Ok(decoded) => {
            let mut trials =
                read_text(&decoded.text, settings, wanted).unwrap_or_else(|finding| trial::refuse(&finding, wanted));
            for trial in &mut trials {
                trial.findings.extend(decoded.guessed.map(decode::guess_note));
            }
            trials
        }
        Err(finding) => trial::refuse(&finding, wanted),
    };
    for (trial, w) in trials.iter_mut().zip(wanted) {
        for finding in &mut trial.findings {
            finding.trial = Some(w.trial.into());
            finding.file = Some(path.into());
        }
        trial.findings.sort_by_key(|f| (std::cmp::Reverse(f.severity), f.line, f.column));
    }
    trials
}

/// Reads a log that is text; the finding where its layout cannot be found.
fn read_text(text: &[u8], settings: &LogSettings, wanted: &[Wanted<'_>]) -> Result<Vec<LogTrial>, Box<Finding>> {
    let layout = layout::find(text, settings)?;
    let rows = memchr::memchr_iter(b'\n', text).count() / wanted.len() + 1;
    Ok(Reader::new(&layout, settings, wanted, rows).read(text))
}

/// Takes a log as text; `None` where its header cannot be found.
pub(crate) fn with_table<T>(bytes: &[u8], settings: &LogSettings, take: impl FnOnce(TextTable<'_>) -> T) -> Option<T> {
    let decoded = decode::decode(bytes, settings.style.encoding, TableFile::Log).ok()?;
    let layout = layout::find(&decoded.text, settings).ok()?;
    let columns = &settings.columns;
    Some(take(TextTable { text: &decoded.text, delimiter: layout.delimiter, header: layout.line, columns }))
}

/// Whether the reader understands all cells of a clock by itself.
pub(crate) fn knows_clock(cells: &[&str]) -> bool {
    let settings = LogSettings::default();
    let mut clock = clock::Clock::new(&settings, None);
    cells.iter().all(|cell| clock.read(cell.as_bytes()).seconds().is_some())
}

#[cfg(test)]
mod tests;
