//! The rows of the register as text.

use crate::layout::RegisterSettings;
use crate::text::cells::{LongCell, as_text, ends_closed, for_each_row, long_cells};
use std::ops::ControlFlow;

/// A row as text.
pub(super) struct Row {
    pub(super) line: u64,
    pub(super) cells: Vec<String>,
    /// Cells that go over the end of their line.
    pub(super) long: Vec<LongCell>,
    /// Whether the last of them runs to the end of the file.
    pub(super) never_closed: bool,
}

/// All rows as text; a register is small. Rows without any text, which spreadsheets leave below a table, are none.
pub(super) fn read(text: &[u8], delimiter: u8, settings: &RegisterSettings) -> Vec<Row> {
    let skip = settings.style.skip_lines.unwrap_or(0);
    let mut rows = Vec::new();
    for_each_row(text, delimiter, |line, cells| {
        let texts: Vec<String> = cells.iter().map(|c| as_text(c)).collect();
        if line > skip && texts.iter().any(|t| !t.is_empty()) {
            rows.push(Row { line, cells: texts, long: long_cells(line, cells), never_closed: false });
        }
        ControlFlow::Continue(())
    });
    if let Some(last) = rows.last_mut().filter(|_| !ends_closed(text)) {
        last.never_closed = last.long.last().is_some_and(|c| c.is_last);
    }
    rows
}
