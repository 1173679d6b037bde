//! Of many marks those that cannot be told apart are drawn once, so that a chart of thousands of trials stays small.

use std::collections::HashSet;

/// Marks up to which all are drawn.
const FEW: usize = 500;

/// The marks to draw, and how many lie on others: all of few, and of many one a square of one chart unit, a seventh of a
/// mark's width. `at` tells where a mark stands.
pub(crate) fn sieved<T>(mut marks: Vec<T>, at: impl Fn(&T) -> (f64, f64)) -> (Vec<T>, usize) {
    let all = marks.len();
    if all > FEW {
        let mut seen = HashSet::new();
        marks.retain(|mark| {
            let (x, y) = at(mark);
            seen.insert((x.round() as i64, y.round() as i64))
        });
    }
    let hidden = all - marks.len();
    (marks, hidden)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_many_points_one_a_square_is_let_through() {
        let points = [(1.0, 1.0), (1.4, 0.8), (2.0, 1.0), (1.0, 1.0)];
        assert_eq!(sieved(points.to_vec(), |p| *p), (points.to_vec(), 0));
        let many: Vec<(f64, f64)> = points.into_iter().chain((0..FEW).map(|i| (10.0 + i as f64, 0.0))).collect();
        let (drawn, hidden) = sieved(many, |p| *p);
        assert_eq!((&drawn[..3], drawn.len()), (&[(1.0, 1.0), (2.0, 1.0), (10.0, 0.0)][..], FEW + 2));
        assert_eq!(hidden, 2);
    }
}
