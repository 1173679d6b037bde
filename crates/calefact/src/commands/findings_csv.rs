//! Findings as CSV on standard output, with the columns of the report's own table.

use calefact_data::Finding;
use std::io::{self, Write};

const HEADER: [&str; 9] = ["code", "severity", "trial", "file", "line", "column", "message", "action", "hint"];

/// Writes findings as CSV.
///
/// # Errors
/// If the output cannot be written.
pub(super) fn write(out: impl Write, findings: &[Finding]) -> io::Result<()> {
    let mut writer = csv::Writer::from_writer(out);
    writer.write_record(HEADER)?;
    for f in findings {
        let number = |n: Option<u64>| n.map(|n| n.to_string()).unwrap_or_default();
        let text = |t: &Option<String>| t.clone().unwrap_or_default();
        let file = f.file.as_ref().map(|p| p.display().to_string()).unwrap_or_default();
        let (line, column) = (number(f.line), number(f.column));
        let (trial, action, hint) = (text(&f.trial), text(&f.action), text(&f.hint));
        writer.write_record([
            f.code,
            &f.severity.to_string(),
            &trial,
            &file,
            &line,
            &column,
            &f.message,
            &action,
            &hint,
        ])?;
    }
    writer.flush()
}
