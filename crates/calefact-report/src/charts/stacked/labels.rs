//! Names above a bar, each with a line down to its part, set in rows so that nothing crosses.

use super::super::frame::{MARGIN, SMALL};
use crate::figure::{WIDTH, width};

/// Rows tried.
const ROWS: usize = 12;

/// A placed name.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Label {
    /// Middle of the part it names; the line runs down from here.
    pub(super) x: f64,
    /// Where the words begin.
    pub(super) from: f64,
    /// Where they end.
    to: f64,
    /// The words.
    pub(super) text: String,
    /// Row, from the bar upwards.
    pub(super) row: usize,
}

/// Places names given from left to right. A name runs to the right of its line; from the first one on that would leave the
/// frame, names run to the left.
pub(super) fn place(names: &[(f64, String)]) -> Vec<Label> {
    let leaves = |(x, text): &(f64, String)| x - 3.0 + width(text, SMALL, false) > WIDTH - MARGIN;
    let turn = names.iter().position(leaves).unwrap_or(names.len());
    let mut placed: Vec<Label> = Vec::new();
    for (x, text) in &names[turn..] {
        let from = (x + 3.0 - width(text, SMALL, false)).max(MARGIN);
        add(&mut placed, *x, from, text);
    }
    for (x, text) in names[..turn].iter().rev() {
        add(&mut placed, *x, x - 3.0, text);
    }
    placed
}

/// Adds a name in the lowest row where it is clear of all others.
fn add(placed: &mut Vec<Label>, x: f64, from: f64, text: &str) {
    let to = from + width(text, SMALL, false);
    let label = |row| Label { x, from, to, text: text.to_owned(), row };
    let free = (0..ROWS).map(label).find(|l| placed.iter().all(|other| clear(l, other)));
    let above = placed.iter().map(|l| l.row + 1).max().unwrap_or(0);
    placed.push(free.unwrap_or_else(|| label(above)));
}

/// Whether two names, and the line of each and the words of the other, keep apart.
fn clear(a: &Label, b: &Label) -> bool {
    let words = a.row != b.row || a.to + 6.0 < b.from || b.to + 6.0 < a.from;
    let line =
        |upper: &Label, lower: &Label| upper.row <= lower.row || upper.x < lower.from - 5.0 || upper.x > lower.to + 2.0;
    words && line(a, b) && line(b, a)
}

#[cfg(test)]
mod tests {
    use super::{clear, place};

    #[test]
    fn names_crowded_at_either_end_keep_apart() {
        let names = |at: [f64; 6]| at.map(|x| (x, "calorific value of spruce".to_owned())).to_vec();
        for at in [[30.0, 45.0, 60.0, 75.0, 90.0, 100.0], [150.0, 320.0, 370.0, 400.0, 420.0, 440.0]] {
            let placed = place(&names(at));
            for (i, a) in placed.iter().enumerate() {
                assert!(placed[..i].iter().all(|b| clear(a, b)), "{placed:?}");
            }
        }
    }
}
