//! `findings`: everything noticed in the data, trial by trial, those of no trial last.

use crate::columns::Table;
use crate::{pick, place};
use calefact_data::Finding;
use std::path::Path;

/// The rows of some findings; files are shown relative to `base`.
pub(super) fn table<'a>(findings: &[&'a Finding], base: &Path) -> Table<'a> {
    let rows = || findings.iter();
    Table::new("findings")
        .text("code", "stable code of the finding", rows().map(|f| f.code))
        .text("severity", "error, warning or note", rows().map(|f| pick::severity(f.severity)))
        .maybe("trial", "trial concerned", rows().map(|f| f.trial.as_deref()))
        .maybe("file", "file concerned", rows().map(|f| f.file.as_deref().map(|path| place::relative(path, base))))
        .count("line", "line in the file, from 1", rows().map(|f| f.line))
        .count("column", "column in the file, from 1", rows().map(|f| f.column))
        .text("message", "what is wrong and why", rows().map(|f| f.message.as_str()))
        .maybe("action", "what was done about it", rows().map(|f| f.action.as_deref()))
        .maybe("hint", "what a person can do", rows().map(|f| f.hint.as_deref()))
        .maybe("excerpt", "source excerpt", rows().map(|f| f.excerpt.as_deref()))
}
