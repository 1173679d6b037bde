//! Names of sets of marks, in a column at the right of a plot, each with its mark and a line to one of them. Names are wrapped,
//! not cut.

use super::frame::{self, MARGIN, SMALL};
use crate::figure::{Align, Canvas, Font, INK, Mark, SERIES, SOFT, WIDTH, shorten, width, wrap};

/// Width of a name before it is wrapped.
const ROOM: f64 = 104.0;
/// Space for mark and line before a name.
const BEFORE: f64 = 21.0;
/// Height of a line.
const LINE: f64 = 15.0;

/// A set of marks.
pub(super) struct Entry<'a> {
    /// Its name.
    pub(super) name: &'a str,
    /// The mark that the line leads to.
    pub(super) anchor: (f64, f64),
}

fn lines(name: &str) -> Vec<String> {
    wrap(name, SMALL, true, ROOM).iter().map(|line| shorten(line, SMALL, true, ROOM)).collect()
}

/// Where the plot ends, so that all names have room.
pub(super) fn plot_end<'a>(names: impl Iterator<Item = &'a str>) -> f64 {
    let widest = names.flat_map(lines).map(|line| width(&line, SMALL, true)).fold(0.0, f64::max);
    WIDTH - MARGIN - widest - BEFORE
}

/// Draws the names beside a plot that ends at `plot_end`, between two heights; the order is that of the anchors.
pub(super) fn draw(canvas: &mut Canvas, entries: &[Entry<'_>], plot_end: f64, limits: (f64, f64)) {
    let wanted: Vec<f64> = entries.iter().map(|e| e.anchor.1).collect();
    let most = entries.iter().map(|e| lines(e.name).len()).max().unwrap_or(1);
    let heights = frame::spread(&wanted, LINE * most as f64 + 3.0, limits);
    let left = plot_end + 12.0;
    for (i, (entry, height)) in entries.iter().zip(heights).enumerate() {
        canvas.line((entry.anchor.0 + 6.0, entry.anchor.1), (left - 7.0, height), SOFT, 0.6);
        canvas.mark(Mark(i), (left, height), 4.6, SERIES[i % SERIES.len()]);
        for (row, line) in lines(entry.name).into_iter().enumerate() {
            canvas.text(line, (left + 9.0, height + LINE * row as f64), Font::bold(SMALL, INK), Align::Start);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_is_wrapped_and_has_its_room() {
        let name = "Counterflow exchanger, three passes";
        assert!(lines(name).len() > 1);
        assert_eq!(lines(name).join(" "), name, "nothing is cut");
        let end = plot_end([name, "coil"].into_iter());
        assert!(lines(name).iter().all(|l| end + BEFORE + width(l, SMALL, true) <= WIDTH - MARGIN));
    }
}
