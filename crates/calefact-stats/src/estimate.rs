//! The estimate: a number with all it must never travel without.

use serde::Serialize;
use std::borrow::Cow;

/// An interval and the probability it is meant to hold.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Interval {
    /// Lower end, in the unit of the estimate.
    pub lower: f64,
    /// Upper end, in the unit of the estimate.
    pub upper: f64,
    /// Coverage probability, 0 to 1.
    pub confidence: f64,
}

impl Interval {
    /// Half the distance between the ends.
    pub fn half_width(&self) -> f64 {
        0.5 * (self.upper - self.lower)
    }

    /// Whether `x` lies within the closed interval.
    pub fn contains(&self, x: f64) -> bool {
        self.lower <= x && x <= self.upper
    }
}

/// A value with its standard uncertainty, interval and degrees of freedom (JCGM 100:2008, clause 7.2).
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Estimate {
    /// Best estimate, in `unit`.
    pub value: f64,
    /// Unit symbol, the one used in every table.
    pub unit: Cow<'static, str>,
    /// Standard uncertainty, in `unit`.
    pub std_uncertainty: f64,
    /// Coverage interval.
    pub interval: Interval,
    /// Effective degrees of freedom; infinite where the uncertainty is taken as known.
    pub dof: f64,
}

impl Estimate {
    /// An estimate whose interval is value -/+ t(dof) u (JCGM 100:2008, annex G.3).
    pub fn student(
        value: f64,
        unit: impl Into<Cow<'static, str>>,
        std_uncertainty: f64,
        dof: f64,
        confidence: f64,
    ) -> Self {
        let half = crate::dist::t_quantile(0.5 + 0.5 * confidence, dof) * std_uncertainty;
        Self {
            value,
            unit: unit.into(),
            std_uncertainty,
            interval: Interval { lower: value - half, upper: value + half, confidence },
            dof,
        }
    }
}
