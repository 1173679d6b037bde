//! A finding in words: what is wrong, what was done, what to do.
//!
//! ```text
//! error time-backwards: logs/b07.csv line 14 column 1, trial b07
//!   time runs backwards: `20` is 300 s before the reading on line 13
//!   done: trial left out
//!   hint: correct the time on line 14
//! ```

use super::text::{bounded, printable, single_line};
use super::{
    Message, Wording, book, bundle, caution, comparison_finding, dataset, file, forecast, log, logger_fault, pipeline,
    register, toml, trial, workbook,
};
use calefact_analysis::finding::{Fact, Finding};
use calefact_data::{Severity, SheetAddress, place_name};
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
        Fact::Forecast(fact) => forecast::message(wording, fact),
        Fact::Book(fact) => book::message(wording, fact),
        Fact::Bundle(fact) => bundle::message(wording, fact),
    };
    if let Some(repeats) = finding.repeats {
        let address = finding.file.as_deref().and_then(SheetAddress::parse);
        let place = if address.is_some() { "in row" } else { "on line" };
        let _ = write!(message.text, " (and {} more, the last {place} {})", repeats.count, repeats.last_line);
    }
    let shown = |text: String| bounded(printable(text));
    Message { text: shown(message.text), action: message.action.map(shown), hint: message.hint.map(shown) }
}

/// The words of a fact of the reader.
fn data(wording: &Wording<'_>, fact: &calefact_data::Fact) -> Message {
    use calefact_data::Fact;
    match fact {
        Fact::File(fact) => file::message(fact),
        Fact::Log(fact) => log::message(wording, fact),
        Fact::LoggerFault(fact) => logger_fault::message(wording, fact),
        Fact::Toml(fact) => toml::message(wording, fact),
        Fact::Dataset(fact) => dataset::message(wording, fact),
        Fact::Register(fact) => register::message(wording, fact),
        Fact::Sheet(fact) => workbook::message(fact),
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
        let file = single_line(file.display().to_string());
        let _ = write!(text, ": {}", place_name(&file, finding.line, finding.column));
    }
    if let Some(trial) = &finding.trial {
        let mark = if text.is_empty() { ':' } else { ',' };
        let _ = write!(text, "{mark} trial {}", single_line(trial.clone()));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::{Wording, terminal, terminal_refused};
    use calefact_analysis::finding::{Fact, Finding};
    use calefact_data::fact::{File, ReadFailure, TableFile};
    use calefact_data::finding::Repeats;

    fn fact(fact: File) -> Fact {
        Fact::Data(fact.into())
    }

    #[test]
    fn all_parts_in_order() {
        let not_text = File::NotText { table: TableFile::Log, format: None };
        let mut finding = Finding::error(fact(not_text)).at("d/b07.csv", Some(3), Some(9)).trial("b07");
        finding.excerpt = Some("3 | mass = 3\n  |        ^".into());
        finding.repeats = Some(Repeats { count: 2, last_line: 9 });
        assert!(!terminal_refused(&Wording::plain(), &finding).contains("done:"));
        insta::assert_snapshot!(terminal(&Wording::plain(), &finding), @r"
        error file-not-text: d/b07.csv line 3 column 9, trial b07
          not a text file; expected CSV (and 2 more, the last on line 9)
            3 | mass = 3
              |        ^
          done: trial left out
          hint: save the table as CSV (UTF-8) and name that file
        ");
    }

    #[test]
    fn control_characters_are_replaced() {
        let system = File::Unreadable(ReadFailure::System("\u{1b}[2J".into()));
        let finding = Finding::error(fact(system)).at("a\u{1b}[2J.csv", None, None).trial("\u{1b}[31mb");
        let text = terminal(&Wording::plain(), &finding);
        assert!(text.starts_with("error file-unreadable: a\u{fffd}[2J.csv, trial \u{fffd}[31mb\n  "), "{text}");
        assert!(!text.contains('\u{1b}') && text.ends_with(": \u{fffd}[2J"), "{text}");
    }

    #[test]
    fn a_finding_without_place_has_no_colon_on_its_first_line() {
        let text = terminal(&Wording::plain(), &Finding::note(fact(File::EncodingGuessed("windows-1252"))));
        assert!(text.starts_with("note encoding-guessed\n  "), "{text}");
    }
}
