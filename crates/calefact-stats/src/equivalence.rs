//! Equivalence: whether a difference is shown to be too small to matter.
//!
//! Two one-sided tests (Schuirmann 1987, J. Pharmacokinet. Biopharm. 15:657): "at most the lower margin" and "at least the
//! upper margin" are each tested; p is the larger. Equivalent at alpha exactly when the 1 - 2 alpha interval lies within
//! the margins. The margin comes from the reader, never from the data.

use crate::contrast::{Contrast, ContrastKind};
use crate::dist::t_cdf;

/// Differences (or ratios) too small to matter: between `lower` and `upper`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margin {
    /// Lower margin: below 0 for a difference, between 0 and 1 for a ratio.
    pub lower: f64,
    /// Upper margin: above 0 for a difference, above 1 for a ratio.
    pub upper: f64,
}

/// p-value of the two one-sided tests of a contrast, whichever way its uncertainty and degrees of freedom were found; a
/// ratio is tested on the logarithm. `None` when the margin does not hold "no effect" strictly between its ends.
pub fn two_one_sided(contrast: &Contrast, margin: Margin) -> Option<f64> {
    let Margin { lower, upper } = working_margin(contrast.kind, margin)?;
    let tail = |distance: f64| t_cdf(-distance / contrast.effect_uncertainty, contrast.dof);
    Some(tail(contrast.effect - lower).max(tail(upper - contrast.effect)))
}

fn working_margin(kind: ContrastKind, margin: Margin) -> Option<Margin> {
    let Margin { lower, upper } = margin;
    match kind {
        ContrastKind::Difference => (lower < 0.0 && upper > 0.0).then_some(margin),
        ContrastKind::Ratio => {
            let logs = Margin { lower: libm::log(lower), upper: libm::log(upper) };
            (lower > 0.0 && lower < 1.0 && upper > 1.0).then_some(logs)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn p(kind: ContrastKind, effect: f64, lower: f64, upper: f64) -> Option<f64> {
        two_one_sided(&Contrast::new(kind, effect, 0.1, 6.0, 0.95), Margin { lower, upper })
    }

    #[test]
    fn equivalent_exactly_when_the_interval_lies_within() {
        for effect in [-0.9, -0.2, 0.0, 0.35, 0.7] {
            for u in [0.05, 0.2, 0.4] {
                let c = Contrast::new(ContrastKind::Difference, effect, u, 6.0, 0.90);
                let p = two_one_sided(&c, Margin { lower: -0.6, upper: 0.6 }).unwrap();
                let within = c.interval.lower > -0.6 && c.interval.upper < 0.6;
                assert_eq!(within, p < 0.05, "{effect} {u}");
            }
        }
    }

    /// An effect at a margin has p 1/2 against that margin, on the logarithm for a ratio; margins of different width show
    /// which one was used.
    #[test]
    fn an_effect_at_a_margin_has_even_odds() {
        for (kind, effect, lower, upper) in [
            (ContrastKind::Difference, -0.5, -0.5, 2.0),
            (ContrastKind::Difference, 0.5, -2.0, 0.5),
            (ContrastKind::Ratio, libm::log(0.8), 0.8, 3.0),
            (ContrastKind::Ratio, libm::log(1.25), 0.3, 1.25),
        ] {
            assert!((p(kind, effect, lower, upper).unwrap() - 0.5).abs() < 1e-12, "{kind:?} {effect}");
        }
    }

    #[test]
    fn a_margin_must_hold_no_effect() {
        for (lower, upper) in [(0.0, 1.25), (1.0, 1.25), (-0.1, 1.25), (0.8, 1.0), (0.8, 0.9)] {
            assert!(p(ContrastKind::Ratio, 0.0, lower, upper).is_none(), "{lower} {upper}");
        }
        for (lower, upper) in [(0.0, 1.0), (-1.0, 0.0), (0.5, 1.0), (-1.0, -0.5)] {
            assert!(p(ContrastKind::Difference, 0.0, lower, upper).is_none(), "{lower} {upper}");
        }
    }
}
