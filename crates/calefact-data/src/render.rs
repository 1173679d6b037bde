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
        let Some(text) = self.fact.text() else { return write!(f, "\n  {:?}", self.fact) };
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
