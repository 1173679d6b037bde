//! A finding in words: what is wrong, what was done, what to do.
//!
//! ```text
//! error time-backwards: logs/b07.csv line 14 column 1, trial b07
//!   time runs backwards: `20` is 300 s before the reading on line 13
//!   done: trial left out
//!   hint: correct the time on line 14
//! ```

use super::{Message, Wording, caution, comparison_finding, dataset, file, log, pipeline, register, toml, trial};
use calefact_analysis::finding::{Fact, Finding};
use calefact_data::Severity;
use calefact_data::fact::Text;
use calefact_data::finding::printable;
use std::fmt::Write as _;

/// The word for a severity.
pub const fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Note => "note",
        Severity::Warning => "warning",
        Severity::Error => "error",
    }
}

/// The words of a finding.
pub fn message(wording: &Wording<'_>, finding: &Finding) -> Message {
    let mut message = match &finding.fact {
        Fact::Data(fact) => data(wording, fact),
        Fact::Comparison(fact) => comparison_finding::message(wording, fact),
        Fact::Trial(fact) => trial::message(wording, fact),
        Fact::Caution(fact) => caution::message(wording, fact),
        Fact::Pipeline(fact) => pipeline::message(wording, fact),
    };
    if let Some(repeats) = finding.repeats {
        let _ = write!(message.text, " (and {} more, the last on line {})", repeats.count, repeats.last_line);
    }
    Message { text: printable(message.text), action: message.action.map(printable), hint: message.hint.map(printable) }
}

/// The words of a fact of the reader.
fn data(wording: &Wording<'_>, fact: &calefact_data::Fact) -> Message {
    use calefact_data::Fact;
    match fact {
        Fact::File(fact) => file::message(fact),
        Fact::Log(fact) => log::message(wording, fact),
        Fact::Toml(fact) => toml::message(wording, fact),
        Fact::Dataset(fact) => dataset::message(wording, fact),
        Fact::Register(fact) => register::message(wording, fact),
        Fact::Text(Text { message, action, hint, .. }) => {
            Message { text: message.clone(), action: action.clone(), hint: hint.clone() }
        }
    }
}

/// A finding for the terminal: severity, code and place on the first line, the words below.
pub fn terminal(wording: &Wording<'_>, finding: &Finding) -> String {
    lines(finding, &message(wording, finding))
}

/// The same on a file that is refused: nothing is done with it.
pub fn terminal_refused(wording: &Wording<'_>, finding: &Finding) -> String {
    lines(finding, &Message { action: None, ..message(wording, finding) })
}

fn lines(finding: &Finding, message: &Message) -> String {
    let mut text = format!("{} {}{}", severity_word(finding.severity), finding.code(), place(finding));
    let mut line = |word: &str, words: &str| {
        let _ = write!(text, "\n  {word}{words}");
    };
    line("", &message.text);
    for excerpt in finding.excerpt.iter().flat_map(|e| e.lines()) {
        line("  ", excerpt);
    }
    message.action.iter().for_each(|action| line("done: ", action));
    message.hint.iter().for_each(|hint| line("hint: ", hint));
    text
}

/// `: file line 3 column 9, trial b07`, as far as it is known.
fn place(finding: &Finding) -> String {
    let mut text = String::new();
    if let Some(file) = &finding.file {
        let _ = write!(text, ": {}", printable(file.display().to_string()));
        for (word, number) in [("line", finding.line), ("column", finding.column)] {
            let _ = number.map(|n| write!(text, " {word} {n}"));
        }
    }
    if let Some(trial) = &finding.trial {
        let mark = if text.is_empty() { ':' } else { ',' };
        let _ = write!(text, "{mark} trial {}", printable(trial.clone()));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::{Wording, terminal, terminal_refused};
    use calefact_analysis::finding::Finding;

    #[test]
    fn all_parts_in_order() {
        let mut finding = Finding::error_text("wrong-type", "expected a mass")
            .at("d/dataset.toml", Some(3), Some(9))
            .trial("b07")
            .action("value left empty")
            .hint("write \"3 kg\"");
        finding.excerpt = Some("3 | mass = 3\n  |        ^".into());
        assert!(!terminal_refused(&Wording::plain(), &finding).contains("done:"));
        insta::assert_snapshot!(terminal(&Wording::plain(), &finding), @r#"
        error wrong-type: d/dataset.toml line 3 column 9, trial b07
          expected a mass
            3 | mass = 3
              |        ^
          done: value left empty
          hint: write "3 kg"
        "#);
    }

    #[test]
    fn control_characters_are_replaced() {
        let finding = Finding::note_text("x", "y").at("a\u{1b}[2J.csv", None, None).trial("\u{1b}[31mb");
        assert_eq!(terminal(&Wording::plain(), &finding), "note x: a\u{fffd}[2J.csv, trial \u{fffd}[31mb\n  y");
    }

    #[test]
    fn a_finding_without_place_has_two_lines() {
        assert_eq!(terminal(&Wording::plain(), &Finding::note_text("x", "y")), "note x\n  y");
    }
}
