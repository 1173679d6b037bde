//! The F test: a ratio of mean squares with its degrees of freedom and p-value.

use crate::dist::f_sf;
use serde::Serialize;

/// An F statistic held against the F distribution.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FTest {
    /// F.
    pub f: f64,
    /// Numerator degrees of freedom.
    pub numerator_dof: f64,
    /// Denominator degrees of freedom.
    pub denominator_dof: f64,
    /// P(F' > F) under no effect.
    pub p_value: f64,
}

impl FTest {
    /// F with its upper tail; the p-value is not a number when the degrees of freedom are not positive.
    pub fn new(f: f64, numerator_dof: f64, denominator_dof: f64) -> Self {
        Self { f, numerator_dof, denominator_dof, p_value: f_sf(f, numerator_dof, denominator_dof) }
    }
}
