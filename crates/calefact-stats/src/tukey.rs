//! All pairs of group means at once, by the studentized range.
//!
//! q = |difference| / (u / sqrt 2), adjusted p = P(Q_{k, nu} > q), interval difference -/+ Q(level; k, nu) u / sqrt 2, with
//! u the standard uncertainty of the difference. One common variance: Tukey-Kramer (Kramer 1956, Biometrics 12:307; exact
//! for equal n, otherwise on the wide side, Hayter 1984, Ann. Statist. 12:61). Unequal variances: Games & Howell 1976
//! (J. Educ. Stat. 1:113), with Welch's degrees of freedom for each pair.

use crate::contrast::{Contrast, ContrastKind};
use crate::estimate::Interval;
use crate::group::Summary;
use crate::special::studentized_range::{studentized_range_quantile, studentized_range_sf};
use crate::welch::{CompareError, Mean, difference, pooled_sd};
use serde::Serialize;
use std::f64::consts::FRAC_1_SQRT_2;

/// One pair out of all pairs, a before b.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Pair {
    /// Index of the first group.
    pub a: usize,
    /// Index of the second group.
    pub b: usize,
    /// a - b with its pointwise test.
    pub contrast: Contrast,
    /// p-value adjusted for all pairs.
    pub p_adjusted: f64,
    /// Simultaneous interval over all pairs.
    pub simultaneous: Interval,
}

impl Pair {
    /// The pair (a, b) out of `k` levels: `contrast` judged against the studentized range of k means with the contrast's
    /// own degrees of freedom. Works for contrasts of any fitted means (estimated marginal means, ratios).
    pub fn new(a: usize, b: usize, contrast: Contrast, k: usize, level: f64) -> Self {
        let q = contrast.statistic().abs() * std::f64::consts::SQRT_2;
        let critical = studentized_range_quantile(level, k, contrast.dof) * FRAC_1_SQRT_2;
        Self {
            a,
            b,
            contrast,
            p_adjusted: studentized_range_sf(q, k, contrast.dof),
            simultaneous: contrast.interval_with(critical, level),
        }
    }
}

/// Tukey-Kramer comparison of all pairs, with one common variance from all groups.
///
/// # Errors
/// [`CompareError::OneTrial`] when no group has scatter.
pub fn tukey_kramer(groups: &[Summary], level: f64) -> Result<Vec<Pair>, CompareError> {
    let (sd, dof) = pooled_sd(groups).ok_or(CompareError::OneTrial)?;
    pairs(groups, level, |a, b| {
        let u = sd * (1.0 / a.n as f64 + 1.0 / b.n as f64).sqrt();
        Ok(Contrast::new(ContrastKind::Difference, a.mean - b.mean, u, dof, level))
    })
}

/// Games-Howell comparison of all pairs, each with its own variances.
///
/// # Errors
/// [`CompareError::OneTrial`] when any group has no scatter.
pub fn games_howell(groups: &[Summary], level: f64) -> Result<Vec<Pair>, CompareError> {
    pairs(groups, level, |a, b| Ok(difference(Mean::of(a)?, Mean::of(b)?, level)))
}

fn pairs(
    groups: &[Summary],
    level: f64,
    compare: impl Fn(&Summary, &Summary) -> Result<Contrast, CompareError>,
) -> Result<Vec<Pair>, CompareError> {
    let k = groups.len();
    let indices = (0..k).flat_map(|a| (a + 1..k).map(move |b| (a, b)));
    indices.map(|(a, b)| Ok(Pair::new(a, b, compare(&groups[a], &groups[b])?, k, level))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SPSS and R PMCMRplus output: groups 24 23 31 51; 34 18 18 26; 17 68 59 7 give adjusted p 0.558733632,
    /// 0.941147751, 0.682983914 and interval [-16.5492749527, 33.0492749527] for the first pair.
    #[test]
    fn games_howell_of_three_small_groups() {
        let data = [[24.0, 23.0, 31.0, 51.0], [34.0, 18.0, 18.0, 26.0], [17.0, 68.0, 59.0, 7.0]];
        let groups: Vec<Summary> = data.iter().filter_map(|g| Summary::of(g)).collect();
        let pairs = games_howell(&groups, 0.95).unwrap();
        for (pair, p) in pairs.iter().zip([0.558_733_632, 0.941_147_750, 0.682_983_914]) {
            assert!((pair.p_adjusted - p).abs() < 1e-8, "{} {p}", pair.p_adjusted);
        }
        let i = pairs[0].simultaneous;
        assert!((i.lower + 16.549_274_95).abs() < 2e-6 && (i.upper - 33.049_274_95).abs() < 2e-6, "{i:?}");
    }

    #[test]
    fn a_group_of_one_joins_tukey_but_not_games_howell() {
        let groups = [Summary::from_parts(1, 1.0, 0.0), Summary::from_parts(4, 2.0, 0.5)];
        assert!(tukey_kramer(&groups, 0.95).is_ok());
        assert_eq!(games_howell(&groups, 0.95), Err(CompareError::OneTrial));
    }
}
