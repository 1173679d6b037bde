//! What is said of times that cannot be taken, or not as they stand.

use super::elapsed::TimeCell;
use crate::Finding;
use crate::text::cells::{as_text, quoted};

/// Code of the finding on a cell that does not simply give a time.
pub(super) const fn code(cell: TimeCell) -> &'static str {
    match cell {
        TimeCell::Skipped(_) => "time-skipped",
        TimeCell::Blank => "time-blank",
        TimeCell::Ambiguous => "time-ambiguous",
        _ => "time-unreadable",
    }
}

/// The finding on such a cell.
pub(super) fn finding(what: TimeCell, cell: &[u8]) -> Finding {
    let text = as_text(cell);
    let text = quoted(&text);
    match what {
        TimeCell::Skipped(_) => {
            Finding::warning_text("", format!("`{text}` never was: clocks were put forward over it"))
                .action("taken as if this clock had not been put forward")
                .hint("if this clock never changes, leave `time_zone` out of [logs] in dataset.toml")
        }
        TimeCell::Blank => Finding::warning_text("", "the row has no time").action("row left out"),
        TimeCell::Ambiguous => {
            Finding::error_text("", format!("`{text}` may be hours and minutes or minutes and seconds"))
                .action("trial left out")
                .hint("write `elapsed [h:mm]` or `elapsed [m:ss]` in the header")
        }
        _ => Finding::warning_text("", format!("`{text}` is no time"))
            .action("row left out")
            .hint("if the clock has a form of its own, state `clock_format` under [logs] in dataset.toml"),
    }
}
