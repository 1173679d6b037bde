//! Odd trials: how far each lies from the others, and what changes without it. They are shown, never dropped.

use crate::contrast::Contrast;
use crate::dist::{t_cdf, t_quantile};
use crate::group::Summary;
use serde::Serialize;

/// One value against the rest of its group.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Outlyingness {
    /// Externally studentized residual t = e / (s_(i) sqrt(1 - h)), s_(i) from the fit without this value.
    pub studentized: f64,
    /// Two-sided p of the largest |t| of n, Bonferroni: n 2 P(T > |t|), at most 1. For a single group this is the p-value of
    /// Grubbs' test (Grubbs 1950, Ann. Math. Stat. 21:27).
    pub p_value: f64,
}

/// Outlyingness of every observation of a linear model with `parameters` fitted coefficients, from residuals and leverage
/// (Cook & Weisberg 1982, Residuals and Influence in Regression, 2.2). An entry is absent where the model without that
/// observation has no degrees of freedom or the observation is fitted exactly (leverage 1).
pub fn studentized(residuals: &[f64], leverage: &[f64], parameters: usize) -> Vec<Option<Outlyingness>> {
    let n = residuals.len() as f64;
    let dof = n - parameters as f64 - 1.0;
    let squares: f64 = residuals.iter().map(|e| e * e).sum();
    // Up to here the largest of n is nothing out of the ordinary: p is 1.
    let ordinary = t_quantile(1.0 - 0.5 / n, dof);
    let one = |(e, h): (&f64, &f64)| {
        let free = 1.0 - h;
        if dof < 1.0 || free < 1e-10 {
            return None;
        }
        let others = ((squares - e * e / free) / dof).max(0.0);
        let t = if *e == 0.0 { 0.0 } else { e / (others * free).sqrt() };
        let p_value = if t.abs() <= ordinary { 1.0 } else { (n * 2.0 * t_cdf(-t.abs(), dof)).min(1.0) };
        Some(Outlyingness { studentized: t, p_value })
    };
    residuals.iter().zip(leverage).map(one).collect()
}

/// Outlyingness of every value within one group; absent entries for fewer than three values.
pub fn within_group(values: &[f64]) -> Vec<Option<Outlyingness>> {
    let Some(summary) = Summary::of(values) else { return Vec::new() };
    let residuals: Vec<f64> = values.iter().map(|x| x - summary.mean).collect();
    studentized(&residuals, &vec![1.0 / summary.n as f64; summary.n], 1)
}

/// Change of a group's mean when one value is left out, for every value: mean without it less mean with it; empty for
/// fewer than two values.
pub fn mean_changes(values: &[f64]) -> Vec<f64> {
    match Summary::of(values) {
        Some(s) if s.n > 1 => values.iter().map(|x| (s.mean - x) / (s.n as f64 - 1.0)).collect(),
        _ => Vec::new(),
    }
}

/// What a contrast becomes without one trial.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LeftOut {
    /// Index of the trial left out.
    pub index: usize,
    /// The contrast without it; absent where it can then no longer be formed.
    pub contrast: Option<Contrast>,
    /// Whether "shown" becomes "not shown", the reverse, or the sign turns, at the contrast's level.
    pub verdict_changes: bool,
}

/// Repeats an analysis with each of `n` trials left out. `analyse` gets the indices that remain.
pub fn leave_one_out(n: usize, analyse: impl Fn(&[usize]) -> Option<Contrast>) -> Vec<LeftOut> {
    let all: Vec<usize> = (0..n).collect();
    let verdict = |c: Option<Contrast>| c.map(|c| sign_shown(&c));
    let whole = verdict(analyse(&all));
    let without = |index: usize| {
        let rest: Vec<usize> = all.iter().copied().filter(|i| *i != index).collect();
        let contrast = analyse(&rest);
        LeftOut { index, contrast, verdict_changes: verdict(contrast) != whole }
    };
    (0..n).map(without).collect()
}

/// -1 or 1 when the contrast shows an effect of that sign at its level, 0 when it shows none.
fn sign_shown(contrast: &Contrast) -> i8 {
    match contrast.p_value < 1.0 - contrast.interval.level {
        true if contrast.effect > 0.0 => 1,
        true => -1,
        false => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::welch::pooled_difference;

    /// NIST/SEMATECH e-Handbook 1.3.5.17.1, Tietjen-Moore mass data: G = 2.4687 for 245.57, critical value 2.032 at 5 %.
    const MASSES: [f64; 8] = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];

    #[test]
    fn grubbs_of_the_handbook() {
        let s = Summary::of(&MASSES).unwrap();
        let g = (245.57 - s.mean) / s.scatter.unwrap().sd;
        assert!((g - 2.4687).abs() < 1e-4, "{g}");
        let odd = within_group(&MASSES)[7].unwrap();
        assert!(odd.p_value < 1e-6, "{}", odd.p_value);
        // G and t are one statistic: t^2 = n (n - 2) G^2 / ((n - 1)^2 - n G^2).
        let n = 8.0;
        let t2 = n * (n - 2.0) * g * g / ((n - 1.0f64).powi(2) - n * g * g);
        assert!((odd.studentized.powi(2) / t2 - 1.0).abs() < 1e-6);
        assert!(within_group(&MASSES)[3].unwrap().p_value > 0.99);
    }

    /// The handbook's critical value 2.032 (one-sided, 5 %, n = 8) has two-sided p 10 %.
    #[test]
    fn grubbs_critical_value() {
        let (n, g) = (8.0f64, 2.0317);
        let t = (n * (n - 2.0) * g * g / ((n - 1.0).powi(2) - n * g * g)).sqrt();
        assert!((n * t_cdf(-t, n - 2.0) - 0.05).abs() < 1e-4);
    }

    #[test]
    fn mean_without_each() {
        let changes = mean_changes(&[1.0, 2.0, 6.0]);
        assert!((changes[2] - (1.5 - 3.0)).abs() < 1e-12 && changes.len() == 3);
        assert!(mean_changes(&[1.0]).is_empty() && within_group(&[1.0, 2.0])[0].is_none());
    }

    #[test]
    fn a_verdict_that_hangs_on_one_trial_is_seen() {
        let a = [5.0, 5.1, 4.9, 5.05, 9.0];
        let b = [4.6, 4.7, 4.5, 4.65];
        let analyse = |kept: &[usize]| {
            let rest: Vec<f64> = kept.iter().map(|&i| a[i]).collect();
            pooled_difference(&Summary::of(&rest)?, &Summary::of(&b)?, 0.95).ok()
        };
        let changed: Vec<usize> =
            leave_one_out(5, analyse).iter().filter(|l| l.verdict_changes).map(|l| l.index).collect();
        assert_eq!(changed, [4]);
    }
}
