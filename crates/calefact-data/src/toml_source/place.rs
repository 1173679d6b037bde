//! From a byte range of a text to line, column and excerpt.

use crate::{Fact, Finding};
use std::borrow::Cow;
use std::ops::Range;
use std::path::Path;

/// A text, the starts of its lines, and the name of its file.
pub(super) struct Place<'a> {
    path: &'a Path,
    text: &'a str,
    lines: Vec<usize>,
}

impl<'a> Place<'a> {
    pub(super) fn new(path: &'a Path, text: &'a str) -> Self {
        let ends = memchr::memchr_iter(b'\n', text.as_bytes());
        Self { path, text, lines: std::iter::once(0).chain(ends.map(|end| end + 1)).collect() }
    }

    /// An error finding at a byte range, with the line it lies on and a pointer under the range.
    pub(super) fn finding(&self, fact: impl Into<Fact>, span: Range<usize>) -> Finding {
        let start = span.start.min(self.text.len());
        let line = self.lines.partition_point(|at| *at <= start);
        let line_start = self.lines[line - 1];
        let shown = self.text.get(line_start..).unwrap_or_default().lines().next().unwrap_or_default();
        let before = self.text.get(line_start..start).unwrap_or_default();
        let end = span.end.clamp(start, line_start + shown.len().max(start - line_start));
        let marked = self.text.get(start..end).unwrap_or_default();
        let column = before.chars().count() + 1;
        let mut finding = Finding::error(fact).at(self.path, Some(line as u64), Some(column as u64));
        finding.excerpt = Some(excerpt(line, before, marked, &shown[end.min(line_start + shown.len()) - line_start..]));
        finding
    }
}

/// Characters that an excerpt shows of what stands before the marked range, of the range, and of what follows.
const SHOWN: [usize; 3] = [80, 80, 60];

/// The line under its number, its control characters made visible, and a pointer line below. Of a long line, the part around the
/// marked range.
fn excerpt(line: usize, before: &str, marked: &str, after: &str) -> String {
    let number = line.to_string();
    let plain = |text: &str| text.replace(|c: char| c.is_control() && c != '\t', "\u{fffd}");
    let before = last(before, SHOWN[0]);
    let (marked, after) = (first(marked, SHOWN[1]), first(after, SHOWN[2]));
    let gap: String = before.chars().map(|c| if c == '\t' { '\t' } else { ' ' }).collect();
    let pointer = "^".repeat(marked.chars().count().max(1));
    let shown = plain(&format!("{before}{marked}{after}"));
    format!("{number} | {shown}\n{:w$} | {gap}{pointer}", "", w = number.len())
}

/// The first characters of a text, and a mark where more follow.
fn first(text: &str, count: usize) -> Cow<'_, str> {
    text.char_indices().nth(count).map_or(text.into(), |(end, _)| format!("{}\u{2026}", &text[..end]).into())
}

/// The last characters of a text, after a mark where more come before.
fn last(text: &str, count: usize) -> Cow<'_, str> {
    match text.char_indices().rev().nth(count - 1) {
        Some((start, _)) if start > 0 => format!("\u{2026}{}", &text[start..]).into(),
        _ => text.into(),
    }
}
