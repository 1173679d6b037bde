//! The register `trials.csv`: one row a trial, read into [`RegisterRow`](crate::RegisterRow)s.
//!
//! Columns stand in any order; a unit may stand in brackets in the header (`water [L]`) or in the cell (`160 L`).
//! Without a unit a mass is in kg, a temperature in degC, a power in W, a height in m and a moisture a fraction; water
//! has no unit of its own and must name one. A row with an error is left out; the others are read.

mod amounts;
mod cells;
mod header;
mod ids;
mod row;
mod rows;
mod twins;

pub use row::Register;

use self::header::Header;
use self::rows::Row;
use crate::fact::{Fact, RegisterFact, TableFile};
use crate::layout::RegisterSettings;
use crate::personal::TextTable;
use crate::text::{decode, sniff};
use crate::{Apparatus, Finding};
use std::collections::BTreeMap;
use std::path::Path;

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
    let delimiter = settings.style.delimiter.unwrap_or_else(|| sniff::delimiter(&decoded.text));
    let rows = rows::read(&decoded.text, delimiter, settings);
    let register = header::read(&rows, delimiter, settings, &mut findings).map(|header| {
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
        reading.findings.extend(without_header(&header, &rows));
        let columns: Vec<String> = header.columns.iter().map(|c| c.name.clone()).collect();
        twins::check(&reading.register.rows, &columns, reading.findings);
        Register { columns, ..reading.register }
    });
    tell_once(&mut findings, |fact| matches!(fact, RegisterFact::WaterUnit { .. }));
    tell_once(&mut findings, |fact| matches!(fact, RegisterFact::BlankBeyondHeader { .. }));
    for finding in &mut findings {
        finding.file = Some(path.into());
    }
    (register, findings)
}

/// Columns without a header, of a sheet the one behind the last among them, that hold values in most rows: their header is missing, or the
/// headers stand beside their columns. Notes beside a table have no value in most rows.
fn without_header(header: &Header, rows: &[Row]) -> Vec<Finding> {
    let below = || rows.iter().filter(|row| row.line > header.line);
    let last = header.columns.iter().rposition(|c| !c.name.is_empty()).map_or(0, |index| index + 1);
    let is_nameless = |index: &usize| header.columns.get(*index).is_none_or(|c| c.name.is_empty());
    let finding = |index: usize| {
        let mut filled = below().filter(|row| row.cells.get(index).is_some_and(|cell| !cell.is_empty())).peekable();
        let line = filled.peek()?.line;
        let rows = filled.count();
        let fact = RegisterFact::ColumnWithoutHeader { rows };
        (2 * rows > below().count()).then(|| Finding::warning(fact).at("", Some(line), Some(index as u64 + 1)))
    };
    let beyond = usize::from(header.is_sheet);
    (0..last + beyond).filter(is_nameless).filter_map(finding).collect()
}

/// Findings that every row has for one cause, the header, become one: the first counts the others.
fn tell_once(findings: &mut Vec<Finding>, is_fact: impl Fn(&RegisterFact) -> bool) {
    let is_it = |f: &Finding| matches!(&f.fact, Fact::Register(fact) if is_fact(fact));
    let Some(at) = findings.iter().position(is_it) else { return };
    let further: Vec<Finding> = findings.extract_if(at + 1.., |f| is_it(f)).collect();
    for line in further.iter().filter_map(|f| f.line) {
        findings[at].trial = None;
        findings[at].repeat(line);
    }
}

/// Takes a register as text; `None` where its header cannot be found.
pub(crate) fn with_table<T>(
    bytes: &[u8],
    settings: &RegisterSettings,
    take: impl FnOnce(TextTable<'_>) -> T,
) -> Option<T> {
    let decoded = decode::decode(bytes, settings.style.encoding, TableFile::Register).ok()?;
    let delimiter = settings.style.delimiter.unwrap_or_else(|| sniff::delimiter(&decoded.text));
    let rows = rows::read(&decoded.text, delimiter, settings);
    let header = header::read(&rows, delimiter, settings, &mut Vec::new())?.line;
    Some(take(TextTable { text: &decoded.text, delimiter, header, columns: &settings.columns }))
}

#[cfg(test)]
mod tests;
