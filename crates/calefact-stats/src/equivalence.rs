//! Equivalence: whether a difference is shown to be too small to matter.
//!
//! Two one-sided tests (Schuirmann 1987, J. Pharmacokinet. Biopharm. 15:657): "at most the lower margin" and "at least the
//! upper margin" are each tested at alpha; p is the larger. Equivalent at alpha exactly when the 1 - 2 alpha interval
//! lies within the margins. The margin comes from the reader, never from the data.

use crate::contrast::{Contrast, ContrastKind};
use crate::dist::t_cdf;
use crate::estimate::Interval;
use serde::Serialize;
use thiserror::Error;

/// Differences (or ratios) too small to matter: between `lower` and `upper`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Margin {
    /// Lower margin: below 0 for a difference, between 0 and 1 for a ratio.
    pub lower: f64,
    /// Upper margin: above 0 for a difference, above 1 for a ratio.
    pub upper: f64,
}

/// A margin that does not hold "no effect" between its ends.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
#[error("the equivalence margin {lower} to {upper} must hold {no_effect} strictly between its ends")]
pub struct MarginError {
    /// Lower margin given.
    pub lower: f64,
    /// Upper margin given.
    pub upper: f64,
    /// 0 for a difference, 1 for a ratio.
    pub no_effect: f64,
}

/// Result of the two one-sided tests.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Equivalence {
    /// p of the test against the lower margin.
    pub p_lower: f64,
    /// p of the test against the upper margin.
    pub p_upper: f64,
    /// The larger of both: equivalent at alpha when it is below alpha.
    pub p_value: f64,
    /// Interval with probability 1 - 2 alpha, to be held against the margins.
    pub interval: Interval,
}

/// Two one-sided tests of a contrast, whichever way its uncertainty and degrees of freedom were found (Welch, pooled,
/// model); a ratio is tested on the logarithm.
///
/// # Errors
/// [`MarginError`] when the margin does not hold "no effect".
pub fn two_one_sided(contrast: &Contrast, margin: Margin, alpha: f64) -> Result<Equivalence, MarginError> {
    let (lower, upper) = working_margin(contrast.kind, margin)?;
    let tail = |distance: f64| t_cdf(-distance / contrast.effect_uncertainty, contrast.dof);
    let p_lower = tail(contrast.effect - lower);
    let p_upper = tail(upper - contrast.effect);
    let interval = contrast.interval_at(1.0 - 2.0 * alpha);
    Ok(Equivalence { p_lower, p_upper, p_value: p_lower.max(p_upper), interval })
}

fn working_margin(kind: ContrastKind, Margin { lower, upper }: Margin) -> Result<(f64, f64), MarginError> {
    let no_effect = if kind == ContrastKind::Ratio { 1.0 } else { 0.0 };
    let sound = lower < no_effect && upper > no_effect && (kind == ContrastKind::Difference || lower > 0.0);
    match kind {
        _ if !sound => Err(MarginError { lower, upper, no_effect }),
        ContrastKind::Difference => Ok((lower, upper)),
        ContrastKind::Ratio => Ok((lower.ln(), upper.ln())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equivalent_exactly_when_the_interval_lies_within() {
        for effect in [-0.9, -0.2, 0.0, 0.35, 0.7] {
            for u in [0.05, 0.2, 0.4] {
                let c = Contrast::new(ContrastKind::Difference, effect, u, 6.0, 0.95);
                let e = two_one_sided(&c, Margin { lower: -0.6, upper: 0.6 }, 0.05).unwrap();
                let within = e.interval.lower > -0.6 && e.interval.upper < 0.6;
                assert_eq!(within, e.p_value < 0.05, "{effect} {u}");
            }
        }
    }

    #[test]
    fn a_margin_must_hold_no_effect() {
        let c = Contrast::new(ContrastKind::Ratio, 0.0, 0.1, 6.0, 0.95);
        assert!(two_one_sided(&c, Margin { lower: -0.1, upper: 1.25 }, 0.05).is_err());
        assert!(two_one_sided(&c, Margin { lower: 0.8, upper: 1.25 }, 0.05).is_ok());
    }
}
