//! A finding in words: what is wrong, what was done, what to do.

use super::Wording;
use calefact_analysis::finding::Finding;
use calefact_data::fact::FromText as _;

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Message {
    /// What is wrong and why.
    pub text: String,
    /// What the program did about it.
    pub action: Option<String>,
    /// What the person can do.
    pub hint: Option<String>,
}

/// The words of a finding.
pub fn message(_: &Wording<'_>, finding: &Finding) -> Message {
    let Some(words) = finding.fact.text() else { return Message::default() };
    let more = finding
        .repeats
        .map_or_else(String::new, |r| format!(" (and {} more, the last on line {})", r.count, r.last_line));
    Message { text: format!("{}{more}", words.message), action: words.action.clone(), hint: words.hint.clone() }
}

/// A finding for the terminal: severity, code and place on the first line, the words below.
pub fn terminal(_: &Wording<'_>, finding: &Finding) -> String {
    finding.to_string()
}
