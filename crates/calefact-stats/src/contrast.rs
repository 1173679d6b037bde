//! The contrast: a difference or a ratio of two means, with its test and interval. How it is estimated lives in
//! [`crate::welch`] and [`crate::mixed`]; how several are judged together, in [`crate::multiplicity`].

use crate::dist::{t_cdf, t_quantile};
use crate::estimate::Interval;
use serde::Serialize;

/// Whether two levels are compared by subtraction or by division.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ContrastKind {
    /// a - b, in the unit of the quantity; no effect is 0.
    Difference,
    /// a / b, without unit; no effect is 1. Tested and bounded on the logarithm.
    Ratio,
}

/// A comparison of two levels with its Student test against "no effect".
///
/// On the working scale (the difference itself, or the logarithm of the ratio) the estimate is d, its standard
/// uncertainty u and its degrees of freedom nu; t = d / u, p = 2 P(T_nu > |t|), interval d -/+ t_nu(1 - alpha/2) u.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Contrast {
    /// Difference or ratio.
    pub kind: ContrastKind,
    /// d: the difference, or the natural logarithm of the ratio.
    pub effect: f64,
    /// u, standard uncertainty of `effect`.
    pub effect_uncertainty: f64,
    /// nu, degrees of freedom; may be infinite.
    pub dof: f64,
    /// Two-sided p-value of "no effect", unadjusted.
    pub p_value: f64,
    /// Interval on the reader's scale (difference, or ratio).
    pub interval: Interval,
}

impl Contrast {
    /// A contrast from its working-scale estimate; `level` is the interval's probability.
    pub fn new(kind: ContrastKind, effect: f64, effect_uncertainty: f64, dof: f64, level: f64) -> Self {
        let mut contrast = Self {
            kind,
            effect,
            effect_uncertainty,
            dof,
            p_value: two_sided_p(effect, effect_uncertainty, dof),
            interval: Interval { lower: f64::NAN, upper: f64::NAN, level },
        };
        contrast.interval = contrast.interval_at(level);
        contrast
    }

    /// The difference, or the ratio itself.
    pub fn value(&self) -> f64 {
        self.to_reader(self.effect)
    }

    /// Standard uncertainty on the reader's scale; for a ratio R it is R u(ln R), to first order.
    pub fn std_uncertainty(&self) -> f64 {
        match self.kind {
            ContrastKind::Difference => self.effect_uncertainty,
            ContrastKind::Ratio => self.value() * self.effect_uncertainty,
        }
    }

    /// t = d / u; infinite when a non-zero effect has no uncertainty.
    pub fn statistic(&self) -> f64 {
        if self.effect == 0.0 { 0.0 } else { self.effect / self.effect_uncertainty }
    }

    /// Interval of another probability.
    pub fn interval_at(&self, level: f64) -> Interval {
        self.interval_with(t_quantile(0.5 + 0.5 * level, self.dof), level)
    }

    /// Interval d -/+ `critical` u, said to hold with probability `level`; for simultaneous intervals.
    pub fn interval_with(&self, critical: f64, level: f64) -> Interval {
        let half = if self.effect_uncertainty == 0.0 { 0.0 } else { critical * self.effect_uncertainty };
        Interval { lower: self.to_reader(self.effect - half), upper: self.to_reader(self.effect + half), level }
    }

    fn to_reader(self, effect: f64) -> f64 {
        match self.kind {
            ContrastKind::Difference => effect,
            ContrastKind::Ratio => effect.exp(),
        }
    }
}

/// 2 P(T_nu > |d| / u); 1 when both are zero, since nothing then speaks against "no effect".
pub(crate) fn two_sided_p(effect: f64, uncertainty: f64, dof: f64) -> f64 {
    if effect == 0.0 {
        return 1.0;
    }
    (2.0 * t_cdf(-(effect / uncertainty).abs(), dof)).min(1.0)
}

/// Effective degrees of freedom of a sum of independent parts (u_i, nu_i): (sum u_i^2)^2 / sum(u_i^4 / nu_i)
/// (Welch-Satterthwaite; JCGM 100:2008, G.4.1). Infinite when no part has finite degrees of freedom.
pub fn effective_dof(parts: impl IntoIterator<Item = (f64, f64)>) -> f64 {
    let (mut total, mut fourth) = (0.0, 0.0);
    for (u, dof) in parts {
        total += u * u;
        fourth += u.powi(4) / dof;
    }
    if fourth > 0.0 { total * total / fourth } else { f64::INFINITY }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ratio_is_bounded_on_the_logarithm() {
        let c = Contrast::new(ContrastKind::Ratio, 2f64.ln(), 0.1, f64::INFINITY, 0.95);
        assert!((c.interval.lower * c.interval.upper - 4.0).abs() < 1e-12);
        assert!((c.std_uncertainty() - 0.2).abs() < 1e-12);
    }

    #[test]
    fn effective_dof_of_equal_parts_adds_up() {
        assert!((effective_dof([(2.0, 4.0), (2.0, 4.0)]) - 8.0).abs() < 1e-12);
        assert!(effective_dof([(1.0, f64::INFINITY)]).is_infinite());
    }

    #[test]
    fn no_uncertainty_and_no_effect_prove_nothing() {
        let c = Contrast::new(ContrastKind::Difference, 0.0, 0.0, f64::INFINITY, 0.95);
        assert_eq!((c.p_value, c.interval.half_width()), (1.0, 0.0));
    }
}
