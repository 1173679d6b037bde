//! What few readings leave open about a heat flow that was not constant.

/// Standard uncertainty of a mean heat flow taken for the steady one, W: with so few readings that ramp and burn-down cannot
/// be told from the steady part, the steady flow may lie anywhere between the mean and the steepest stretch (rectangular,
/// GUM 4.3.7). `e` is heat (J) at times `t` (s). Dense logs are cut into `STRETCHES` stretches.
pub(crate) fn unevenness(t: &[f64], e: &[f64]) -> f64 {
    let last = t.len().saturating_sub(1);
    if last == 0 {
        return f64::NAN;
    }
    let step = last.div_ceil(STRETCHES);
    let ends: Vec<usize> = (0..=last).step_by(step).collect();
    let slope = |a: usize, b: usize| (e[b] - e[a]) / (t[b] - t[a]);
    let steepest = ends.windows(2).map(|w| slope(w[0], w[1])).fold(f64::NEG_INFINITY, f64::max);
    (steepest - slope(0, last)).max(0.0) / 3.0_f64.sqrt()
}

/// Most stretches a curve is cut into.
const STRETCHES: usize = 8;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_constant_flow_leaves_nothing_open() {
        let t = [0.0, 600.0, 1200.0, 1800.0, 2400.0];
        assert!(unevenness(&t, &t.map(|t| 5000.0 * t)) < 1e-9);
        let ramped = [0.0, 1.0e6, 4.0e6, 7.0e6, 8.0e6];
        assert!((unevenness(&t, &ramped) - (5000.0 - 8.0e6 / 2400.0) / 3.0_f64.sqrt()).abs() < 1e-6);
    }
}
