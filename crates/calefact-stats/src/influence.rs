//! Odd trials: how far each lies from the others. They are shown, never dropped.

use crate::dist::{t_cdf, t_quantile};
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
    let outlyingness = |(e, h): (&f64, &f64)| {
        let free = 1.0 - h;
        if dof < 1.0 || free < 1e-10 {
            return None;
        }
        let others = ((squares - e * e / free) / dof).max(0.0);
        let t = if *e == 0.0 { 0.0 } else { e / (others * free).sqrt() };
        let p_value = if t.abs() <= ordinary { 1.0 } else { (n * 2.0 * t_cdf(-t.abs(), dof)).min(1.0) };
        Some(Outlyingness { studentized: t, p_value })
    };
    residuals.iter().zip(leverage).map(outlyingness).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::group::Summary;

    fn within_group(values: &[f64]) -> Vec<Option<Outlyingness>> {
        let mean = Summary::from_values(values).unwrap().mean;
        let residuals: Vec<f64> = values.iter().map(|x| x - mean).collect();
        studentized(&residuals, &vec![1.0 / values.len() as f64; values.len()], 1)
    }

    /// NIST/SEMATECH e-Handbook 1.3.5.17.1, Tietjen-Moore mass data: G = 2.4687 for 245.57, critical value 2.032 at 5 %.
    const MASSES: [f64; 8] = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];

    #[test]
    fn grubbs_of_the_handbook() {
        let s = Summary::from_values(&MASSES).unwrap();
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

    /// The definition: residual over the deviation found without that value, for a mean: e_i = x_i - mean, h = 1/n.
    #[test]
    fn studentized_by_leaving_out() {
        let values = [3.0, 4.5, 4.0, 5.5, 9.0];
        for (i, found) in within_group(&values).iter().enumerate() {
            let others: Vec<f64> = (0..5).filter(|&j| j != i).map(|j| values[j]).collect();
            let rest = Summary::from_values(&others).unwrap();
            // x_i against the mean of the others: variance s^2 (1 + 1/4).
            let t = (values[i] - rest.mean) / (rest.scatter.unwrap().sd * 1.25f64.sqrt());
            let found = found.unwrap();
            assert!((found.studentized - t).abs() < 1e-9, "{i}");
            assert!((found.p_value - (10.0 * t_cdf(-t.abs(), 3.0)).min(1.0)).abs() < 1e-9, "{i}");
        }
    }

    #[test]
    fn values_fitted_exactly_are_not_judged() {
        assert!(within_group(&[1.0, 2.0]).iter().all(Option::is_none));
        let found = studentized(&[0.0, 1.0, -1.0, 0.0], &[1.0, 0.5, 0.5, 0.5], 1);
        assert!(found[0].is_none() && found[3].is_some_and(|o| o.studentized == 0.0 && o.p_value >= 1.0));
    }
}
