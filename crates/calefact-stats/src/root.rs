//! Roots of monotone functions of one variable. Minimisation and systems of equations live elsewhere.

/// Widens [start - width, start + width] until `f` changes sign over it; `None` after 60 doublings.
pub(crate) fn bracket(f: impl Fn(f64) -> f64, start: f64, width: f64) -> Option<(f64, f64)> {
    let (mut low, mut high, mut width) = (start - width, start + width, width);
    let (mut at_low, mut at_high) = (f(low), f(high));
    for _ in 0..60 {
        if at_low * at_high <= 0.0 {
            return Some((low, high));
        }
        width *= 2.0;
        if at_low.abs() < at_high.abs() {
            low -= width;
            at_low = f(low);
        } else {
            high += width;
            at_high = f(high);
        }
    }
    None
}

/// A point of a function.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

/// Root of `f` between `low` and `high`, where it has opposite signs, to within `tolerance` in the variable.
pub(crate) fn find(f: impl Fn(f64) -> f64, low: f64, high: f64, tolerance: f64) -> f64 {
    let [low, high] = [low, high].map(|x| Point { x, y: f(x) });
    between(f, low, high, tolerance)
}

/// The same where the values at the ends are known: false position with the Illinois weight, and bisection whenever that
/// stalls.
pub(crate) fn between(f: impl Fn(f64) -> f64, mut a: Point, mut b: Point, tolerance: f64) -> f64 {
    for i in 0..200 {
        if a.y == 0.0 || (b.x - a.x).abs() <= tolerance {
            return a.x;
        }
        if b.y == 0.0 {
            return b.x;
        }
        let secant = b.x - b.y * (b.x - a.x) / (b.y - a.y);
        let inside = secant > a.x.min(b.x) && secant < a.x.max(b.x) && i % 4 != 3;
        let x = if inside { secant } else { 0.5 * (a.x + b.x) };
        let next = Point { x, y: f(x) };
        if next.y * b.y < 0.0 {
            a = b;
        } else {
            a.y *= 0.5;
        }
        b = next;
    }
    0.5 * (a.x + b.x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_root_far_from_the_start_is_found() {
        let f = |x: f64| libm::exp(x) - 1e6;
        let (low, high) = bracket(f, 0.0, 0.5).unwrap();
        assert!((find(f, low, high, 1e-12) - libm::log(1e6)).abs() < 1e-10);
        assert!(bracket(|_| 1.0, 0.0, 1.0).is_none());
    }
}
