//! Of many marks those that cannot be told apart are drawn once, so that a chart of thousands of trials stays small.

use std::collections::HashSet;

/// Points up to which all are let through.
const FEW: usize = 500;

/// Lets through all of few points, and of many one a square of one chart unit, a seventh of a mark's width.
#[derive(Debug, Clone)]
pub(crate) struct Sieve {
    many: bool,
    seen: HashSet<(i64, i64)>,
    hidden: usize,
}

impl Sieve {
    /// For so many points.
    pub(crate) fn of(points: usize) -> Self {
        Self { many: points > FEW, seen: HashSet::new(), hidden: 0 }
    }

    /// Whether a point is let through.
    pub(crate) fn lets(&mut self, (x, y): (f64, f64)) -> bool {
        let lets = !self.many || self.seen.insert((x.round() as i64, y.round() as i64));
        self.hidden += usize::from(!lets);
        lets
    }

    /// Points that were not.
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
    fn of_many_points_one_a_square_is_let_through() {
        let points = [(1.0, 1.0), (1.4, 0.8), (2.0, 1.0), (1.0, 1.0)];
        assert!(points.iter().all(|p| Sieve::of(FEW).lets(*p)));
        let mut sieve = Sieve::of(FEW + 1);
        assert_eq!(points.map(|p| sieve.lets(p)), [true, false, true, false]);
        assert_eq!(hidden_words(sieve.hidden()), " 2 marks lie on others and are not drawn.");
    }
}
