//! From a byte range of a text to line, column and excerpt.

use crate::{Fact, Finding};
use std::ops::Range;
use std::path::Path;

/// A text and the name of its file.
pub(super) struct Place<'a> {
    path: &'a Path,
    text: &'a str,
}

impl<'a> Place<'a> {
    pub(super) const fn new(path: &'a Path, text: &'a str) -> Self {
        Self { path, text }
    }

    /// An error finding at a byte range, with the line it lies on and a pointer under the range.
    pub(super) fn finding(&self, fact: impl Into<Fact>, span: Range<usize>) -> Finding {
        let start = span.start.min(self.text.len());
        let before = self.text.get(..start).unwrap_or_default();
        let line_start = before.rfind('\n').map_or(0, |i| i + 1);
        let line = before.matches('\n').count() + 1;
        let shown = self.text.get(line_start..).unwrap_or_default().lines().next().unwrap_or_default();
        let column = before.get(line_start..).unwrap_or_default().chars().count() + 1;
        let end = span.end.clamp(start, line_start + shown.len().max(start - line_start));
        let width = self.text.get(start..end).map_or(1, |t| t.chars().count()).max(1);
        let mut finding = Finding::error(fact).at(self.path, Some(line as u64), Some(column as u64));
        finding.excerpt = Some(excerpt(line, shown, column, width));
        finding
    }
}

/// The line under its number, its control characters made visible, and a pointer line below.
fn excerpt(line: usize, shown: &str, column: usize, width: usize) -> String {
    let number = line.to_string();
    let plain = shown.replace(|c: char| c.is_control() && c != '\t', "\u{fffd}");
    let gap: String = shown.chars().take(column - 1).map(|c| if c == '\t' { '\t' } else { ' ' }).collect();
    format!("{number} | {plain}\n{:w$} | {gap}{}", "", "^".repeat(width), w = number.len())
}
