//! Findings as plain text, for the terminal and for log files. No colours: whoever prints them may add some.
//!
//! ```text
//! error time-backwards: logs/b07.csv line 14 column 1, trial b07
//!   time runs backwards: 20 min after 25 min on line 13
//!   done: trial left out
//!   hint: correct the time on line 14
//! ```

use crate::Severity;
use crate::fact::FromText;
use crate::finding::{Finding, printable};
use std::fmt;

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        })
    }
}

impl<F: FromText> fmt::Display for Finding<F> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.severity, self.code())?;
        self.write_place(f)?;
        let Some(text) = self.fact.text() else { return Ok(()) };
        write!(f, "\n  {}", text.message)?;
        if let Some(r) = &self.repeats {
            write!(f, " (and {} more, the last on line {})", r.count, r.last_line)?;
        }
        for line in self.excerpt.iter().flat_map(|e| e.lines()) {
            write!(f, "\n    {line}")?;
        }
        let tail = [("done", &text.action), ("hint", &text.hint)];
        tail.iter().try_for_each(|(word, text)| text.as_ref().map_or(Ok(()), |t| write!(f, "\n  {word}: {t}")))
    }
}

impl<F: FromText> Finding<F> {
    /// `: file line 3 column 9, trial b07`, as far as it is known.
    fn write_place(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut mark = ":";
        if let Some(file) = &self.file {
            write!(f, "{mark} {}", printable(file.display().to_string()))?;
            for (word, n) in [("line", self.line), ("column", self.column)] {
                n.map_or(Ok(()), |n| write!(f, " {word} {n}"))?;
            }
            mark = ",";
        }
        self.trial.as_ref().map_or(Ok(()), |t| write!(f, "{mark} trial {}", printable(t.clone())))
    }
}

#[cfg(test)]
mod tests {
    use crate::Finding;

    #[test]
    fn all_parts_in_order() {
        let mut finding = Finding::error_text("wrong-type", "expected a mass")
            .at("d/dataset.toml", Some(3), Some(9))
            .trial("b07")
            .action("value left empty")
            .hint("write \"3 kg\"");
        finding.excerpt = Some("3 | mass = 3\n  |        ^".into());
        insta::assert_snapshot!(finding, @r#"
        error wrong-type: d/dataset.toml line 3 column 9, trial b07
          expected a mass
            3 | mass = 3
              |        ^
          done: value left empty
          hint: write "3 kg"
        "#);
    }

    #[test]
    fn no_terminal_obeys_a_name() {
        let finding = Finding::note_text("x", "y").at("a\u{1b}[2J.csv", None, None).trial("\u{1b}[31mb");
        assert_eq!(finding.to_string(), "note x: a\u{fffd}[2J.csv, trial \u{fffd}[31mb\n  y");
    }

    #[test]
    fn bare_finding_is_two_lines() {
        assert_eq!(Finding::note_text("x", "y").to_string(), "note x\n  y");
    }
}
