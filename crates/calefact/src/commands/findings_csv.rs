//! Findings as CSV on standard output, with the columns of the report's own table.

use calefact_analysis::finding::Finding;
use calefact_analysis::result::Analysis;
use calefact_data::Severity;
use calefact_report::words::{self, Wording, as_text, printable, severity_word};
use std::io::{self, Write};

/// The columns of the report's table of findings; an end-to-end check compares the two.
const HEADER: [&str; 10] =
    ["code", "severity", "trial", "file", "line", "column", "message", "action", "hint", "excerpt"];

/// Code of a row that says what cannot be given; a run has these in a table of their own.
const MISSING: &str = "quantity-missing";

/// Findings as CSV, written as they come.
pub(super) struct FindingsCsv<'n, W: Write> {
    wording: Wording<'n>,
    writer: csv::Writer<W>,
}

impl<'n, W: Write> FindingsCsv<'n, W> {
    /// Writes the header.
    ///
    /// # Errors
    /// If the output cannot be written; so for the others.
    pub(super) fn begin(wording: Wording<'n>, out: W) -> io::Result<Self> {
        let mut writer = csv::Writer::from_writer(out);
        writer.write_record(HEADER)?;
        Ok(Self { wording, writer })
    }

    /// Writes findings.
    pub(super) fn add(&mut self, findings: &[Finding]) -> io::Result<()> {
        for f in findings {
            let number = |n: Option<u64>| n.map(|n| n.to_string()).unwrap_or_default();
            let text = |t: &Option<String>| cell(t.clone().unwrap_or_default());
            let file = cell(f.file.as_ref().map(|p| p.display().to_string()).unwrap_or_default());
            let (line, column) = (number(f.line), number(f.column));
            let words = words::message(&self.wording, f);
            let (trial, action, hint) = (text(&f.trial), text(&words.action), text(&words.hint));
            let severity = severity_word(f.severity);
            self.writer.write_record([
                f.code(),
                severity,
                &trial,
                &file,
                &line,
                &column,
                &cell(words.text),
                &action,
                &hint,
                &text(&f.excerpt),
            ])?;
        }
        Ok(())
    }

    /// Writes the quantities that cannot be given, as notes with a code of their own.
    pub(super) fn add_missing(&mut self, analysis: &Analysis) -> io::Result<()> {
        for words::Message { text, hint, .. } in words::missing(&self.wording, analysis) {
            let (note, hint) = (severity_word(Severity::Note), hint.unwrap_or_default());
            self.writer.write_record([MISSING, note, "", "", "", "", &text, "quantities left empty", &hint, ""])?;
        }
        Ok(())
    }

    /// Writes what is still held back.
    pub(super) fn finish(mut self) -> io::Result<()> {
        self.writer.flush()
    }
}

/// A cell of text: a terminal does not obey it, and a spreadsheet does not run it.
fn cell(text: String) -> String {
    as_text(&printable(text)).into_owned()
}
