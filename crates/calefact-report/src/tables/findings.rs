//! `findings`: everything noticed in the data, those of no trial first.

use crate::columns::Table;
use crate::{pick, place};
use calefact_analysis::result::Analysis;

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let all = pick::findings(analysis);
    let rows = || all.iter();
    Table::new("findings")
        .text("code", "stable code of the finding", rows().map(|f| f.code))
        .text("severity", "error, warning or note", rows().map(|f| pick::severity(f.severity)))
        .maybe("trial", "trial concerned", rows().map(|f| f.trial.as_deref()))
        .maybe("file", "file concerned", rows().map(|f| f.file.as_deref().map(place::shown)))
        .count("line", "line in the file, from 1", rows().map(|f| f.line))
        .count("column", "column in the file, from 1", rows().map(|f| f.column))
        .text("message", "what is wrong and why", rows().map(|f| f.message.as_str()))
        .maybe("action", "what was done about it", rows().map(|f| f.action.as_deref()))
        .maybe("hint", "what a person can do", rows().map(|f| f.hint.as_deref()))
        .maybe("excerpt", "source excerpt", rows().map(|f| f.excerpt.as_deref()))
}
