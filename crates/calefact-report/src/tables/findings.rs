//! `findings`: everything noticed in the data, trial by trial, those of no trial last.

use crate::columns::Table;
use crate::place;
use crate::words::{self, Wording};
use calefact_analysis::finding::Finding;
use std::path::Path;

/// The rows of some findings; files are shown relative to `base`.
pub(super) fn table<'a>(wording: &Wording<'_>, findings: &[&'a Finding], base: &Path) -> Table<'a> {
    let rows = || findings.iter();
    let messages: Vec<words::Message> = rows().map(|f| words::message(wording, &place::within(f, base))).collect();
    let (mut texts, mut actions, mut hints) = (Vec::new(), Vec::new(), Vec::new());
    for message in messages {
        texts.push(message.text);
        actions.push(message.action);
        hints.push(message.hint);
    }
    Table::new("findings")
        .text("code", "stable code of the finding", rows().map(|f| f.code()))
        .text("severity", "error, warning or note", rows().map(|f| words::severity_word(f.severity)))
        .maybe("trial", "trial concerned", rows().map(|f| f.trial.as_deref()))
        .maybe("file", "file concerned", rows().map(|f| f.file.as_deref().map(|path| place::relative(path, base))))
        .count("line", "line in the file, from 1", rows().map(|f| f.line))
        .count("column", "column in the file, from 1", rows().map(|f| f.column))
        .text("message", "what is wrong and why", texts.into_iter())
        .maybe("action", "what was done about it", actions.into_iter())
        .maybe("hint", "what a person can do", hints.into_iter())
        .maybe("excerpt", "source excerpt", rows().map(|f| f.excerpt.as_deref()))
}
