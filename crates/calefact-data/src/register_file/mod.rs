//! The register `trials.csv`: one row a trial, read into [`RegisterRow`]s.
//!
//! Columns stand in any order; a unit may stand in brackets in the header (`water [L]`) or in the cell (`160 L`).
//! Without a unit a mass is in kg, a temperature in degC, a power in W, a height in m and a moisture a fraction; water
//! has no unit of its own and must name one. A row with an error is left out; the others are read.

mod amounts;
mod cells;
mod header;
mod ids;
mod row;

use crate::fact::{RegisterFact, TableFile};
use crate::layout::RegisterSettings;
use crate::text::cells::{LongCell, as_text, ends_closed, for_each_row, long_cells};
use crate::text::{decode, sniff};
use crate::{Apparatus, Finding, RegisterRow};
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

/// A register as read.
#[derive(Debug, Clone, Default)]
pub struct Register {
    /// Rows without errors, in the order of the file.
    pub rows: Vec<RegisterRow>,
    /// All columns, canonical where they are known.
    pub columns: Vec<String>,
    /// Logs named by rows that were left out: they are registered all the same.
    pub logs_left_out: Vec<PathBuf>,
}

/// Reads the bytes of a register; `path` is only named in findings. `None` if required columns are missing.
pub fn read(
    path: &Path,
    bytes: &[u8],
    settings: &RegisterSettings,
    apparatus: &Apparatus,
) -> (Option<Register>, Vec<Finding>) {
    let decoded = match decode::decode(bytes, settings.style.encoding, TableFile::Register) {
        Ok(decoded) => decoded,
        Err(finding) => return (None, vec![finding.at(path, None, None)]),
    };
    let mut findings: Vec<Finding> = decoded.guessed.map(decode::guess_note).into_iter().collect();
    let rows = table(&decoded.text, settings);
    let register = header::read(&rows, settings, &mut findings).map(|header| {
        let mut reading = row::Reading {
            header: &header,
            apparatus,
            findings: &mut findings,
            register: Register::default(),
            ids: BTreeMap::new(),
        };
        let below = rows.iter().filter(|row| row.line > header.line);
        below.clone().for_each(|row| reading.row(row));
        if below.count() == 0 {
            reading.findings.push(Finding::warning(RegisterFact::NoTrial).at("", Some(header.line), None));
        }
        let columns = header.columns.iter().map(|c| c.name.clone()).collect();
        Register { columns, ..reading.register }
    });
    for finding in &mut findings {
        finding.file = Some(path.into());
    }
    (register, findings)
}

/// A row as text.
struct Row {
    line: u64,
    cells: Vec<String>,
    /// Cells that go over the end of their line.
    long: Vec<LongCell>,
    /// Whether the last of them runs to the end of the file.
    never_closed: bool,
}

/// All rows as text; a register is small.
fn table(text: &[u8], settings: &RegisterSettings) -> Vec<Row> {
    let delimiter = settings.style.delimiter.unwrap_or_else(|| sniff::delimiter(text));
    let skip = settings.style.skip_lines.unwrap_or(0);
    let mut rows = Vec::new();
    for_each_row(text, delimiter, |line, cells| {
        if line > skip {
            let texts = cells.iter().map(|c| as_text(c)).collect();
            rows.push(Row { line, cells: texts, long: long_cells(line, cells), never_closed: false });
        }
        ControlFlow::Continue(())
    });
    if let Some(last) = rows.last_mut().filter(|_| !ends_closed(text)) {
        last.never_closed = last.long.last().is_some_and(|c| c.is_last);
    }
    rows
}

#[cfg(test)]
mod tests;
