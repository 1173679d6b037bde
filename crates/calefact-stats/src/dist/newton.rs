//! Newton's method for the quantile of a positive variate. Nothing about any one distribution lives here.

/// A distribution on (0, inf) given by its two tails and its density.
pub(super) struct Positive<C, S, D> {
    /// Distribution function.
    pub cdf: C,
    /// Upper tail, 1 - cdf without cancellation.
    pub sf: S,
    /// Density.
    pub pdf: D,
}

impl<C: Fn(f64) -> f64, S: Fn(f64) -> f64, D: Fn(f64) -> f64> Positive<C, S, D> {
    /// Refines `start` until the smaller tail at it equals that of `p`. Works on logarithms of both, in which tails
    /// are nearly straight; gives NaN for NaN.
    pub(super) fn refine(&self, start: f64, p: f64) -> f64 {
        let mut x = start;
        for _ in 0..60 {
            let lower = p <= 0.5;
            let (tail, want, sign) = if lower { ((self.cdf)(x), p, 1.0) } else { ((self.sf)(x), 1.0 - p, -1.0) };
            let slope = sign * x * (self.pdf)(x) / tail;
            let step = ((want / tail).ln() / slope).clamp(-1.0, 1.0);
            if !step.is_finite() {
                break;
            }
            x *= step.exp();
            // What is left is the square of the last step: below rounding.
            if step.abs() < 1e-8 {
                break;
            }
        }
        x
    }
}
