//! Roots of monotone functions of one variable. Minimisation and systems of equations live elsewhere.

/// Two points at which a function has opposite signs, or zero.
pub(crate) type Bracket = (f64, f64);

/// Widens [start - width, start + width] until `f` changes sign over it; `None` after 60 doublings.
pub(crate) fn bracket(f: impl Fn(f64) -> f64, start: f64, width: f64) -> Option<Bracket> {
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

/// Root of `f` within `bracket` to within `tolerance` in the variable.
pub(crate) fn find(f: impl Fn(f64) -> f64, (a, b): Bracket, tolerance: f64) -> f64 {
    let ends = ((a, f(a)), (b, f(b)));
    between(f, ends, tolerance)
}

/// The same where the values at the ends are known: false position with the Illinois weight, and bisection whenever that
/// stalls.
pub(crate) fn between(f: impl Fn(f64) -> f64, ends: ((f64, f64), (f64, f64)), tolerance: f64) -> f64 {
    let ((mut a, mut fa), (mut b, mut fb)) = ends;
    for i in 0..200 {
        if fa == 0.0 || (b - a).abs() <= tolerance {
            return a;
        }
        if fb == 0.0 {
            return b;
        }
        let secant = b - fb * (b - a) / (fb - fa);
        let inside = secant > a.min(b) && secant < a.max(b) && i % 4 != 3;
        let c = if inside { secant } else { 0.5 * (a + b) };
        let fc = f(c);
        if fc * fb < 0.0 {
            (a, fa) = (b, fb);
        } else {
            fa *= 0.5;
        }
        (b, fb) = (c, fc);
    }
    0.5 * (a + b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_root_far_from_the_start_is_found() {
        let f = |x: f64| x.exp() - 1e6;
        let range = bracket(f, 0.0, 0.5).unwrap();
        assert!((find(f, range, 1e-12) - 1e6f64.ln()).abs() < 1e-10);
        assert!(bracket(|_| 1.0, 0.0, 1.0).is_none());
    }
}
