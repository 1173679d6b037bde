//! Lack of fit against pure error, where the same condition was observed more than once.

use crate::dist::f_sf;
use crate::univariate::mean;

/// Result of the lack-of-fit test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LackOfFit {
    /// F statistic, (SS_lack/df_lack) / (SS_pure/df_pure).
    pub f: f64,
    /// Degrees of freedom of lack of fit: distinct conditions minus parameters.
    pub dof_lack: f64,
    /// Degrees of freedom of pure error: observations minus distinct conditions.
    pub dof_pure: f64,
    /// Upper-tail probability of F.
    pub p_value: f64,
}

/// F test of lack of fit (Draper and Smith, Applied Regression Analysis, 2.1): `groups[i]` names the condition of
/// observation i, `residuals[i]` is its residual from a fit with `parameters` parameters.
///
/// Within a group the model predicts one value, so residuals differ from their group mean by pure error alone. `None`
/// without replicates, or with no more groups than parameters.
pub fn lack_of_fit(groups: &[usize], residuals: &[f64], parameters: usize) -> Option<LackOfFit> {
    let mut order: Vec<(usize, f64)> = groups.iter().copied().zip(residuals.iter().copied()).collect();
    order.sort_by_key(|(g, _)| *g);
    let (mut pure, mut lack, mut count) = (0.0, 0.0, 0_usize);
    for group in order.chunk_by(|a, b| a.0 == b.0) {
        let e: Vec<f64> = group.iter().map(|(_, e)| *e).collect();
        let m = mean(&e);
        pure += e.iter().map(|e| (e - m).powi(2)).sum::<f64>();
        lack += e.len() as f64 * m * m;
        count += 1;
    }
    if count <= parameters || order.len() <= count {
        return None;
    }
    let (dof_lack, dof_pure) = ((count - parameters) as f64, (order.len() - count) as f64);
    let f = (lack / dof_lack) / (pure / dof_pure);
    Some(LackOfFit { f, dof_lack, dof_pure, p_value: f_sf(f, dof_lack, dof_pure) })
}
