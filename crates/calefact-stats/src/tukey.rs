//! All pairs of means at once, by the studentized range.
//!
//! q = |d| / (u / sqrt 2), adjusted p = P(Q_{k, nu} > q), interval d -/+ Q(confidence; k, nu) u / sqrt 2, with u the
//! standard uncertainty of the contrast d and nu its degrees of freedom: the Tukey-Kramer form (Kramer 1956, Biometrics
//! 12:307; exact for equal numbers of trials, otherwise on the wide side, Hayter 1984, Ann. Statist. 12:61).

use crate::contrast::Contrast;
use crate::dist::{studentized_range_quantile, studentized_range_sf};
use crate::estimate::Interval;
use std::f64::consts::{FRAC_1_SQRT_2, SQRT_2};

/// p-value of one pair adjusted for all pairs of `levels` means.
pub fn adjusted_p(contrast: &Contrast, levels: usize) -> f64 {
    studentized_range_sf(contrast.statistic().abs() * SQRT_2, levels, contrast.dof)
}

/// Interval of one pair that holds together with those of all pairs of `levels` means.
pub fn simultaneous_interval(contrast: &Contrast, levels: usize, confidence: f64) -> Interval {
    let critical = studentized_range_quantile(confidence, levels, contrast.dof) * FRAC_1_SQRT_2;
    contrast.interval_with(critical, confidence)
}
