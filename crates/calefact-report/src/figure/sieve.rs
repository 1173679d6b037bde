//! Marks that cannot be told apart are drawn once, so that a chart of thousands of trials stays small.

use std::collections::HashSet;

/// Lets through one point a square of one chart unit, a seventh of a mark's width.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sieve {
    seen: HashSet<(i64, i64)>,
    hidden: usize,
}

impl Sieve {
    /// Whether this is the first point of its square.
    pub(crate) fn lets(&mut self, (x, y): (f64, f64)) -> bool {
        let first = self.seen.insert((x.round() as i64, y.round() as i64));
        self.hidden += usize::from(!first);
        first
    }

    /// Points that were not the first.
    pub(crate) fn hidden(&self) -> usize {
        self.hidden
    }
}

/// The end of a caption, where marks are hidden.
pub(crate) fn hidden_words(hidden: usize) -> String {
    match hidden {
        0 => String::new(),
        1 => " One mark lies on another and is not drawn.".to_owned(),
        n => format!(" {n} marks lie on others and are not drawn."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_point_a_square_is_let_through() {
        let mut sieve = Sieve::default();
        let points = [(1.0, 1.0), (1.4, 0.8), (2.0, 1.0), (1.0, 1.0)];
        assert_eq!(points.map(|p| sieve.lets(p)), [true, false, true, false]);
        assert_eq!(hidden_words(sieve.hidden()), " 2 marks lie on others and are not drawn.");
    }
}
