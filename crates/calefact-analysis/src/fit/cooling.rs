//! Standing loss: heat lost so far against the running excess over the air is a straight line of slope UA.
//!
//! Model: m (h(T0) - h(T)) + Cv (T0 - T) = UA integral(T - Ta) dt + E0. The air temperature is measured, never fitted.

use calefact_stats::linear;
use nalgebra::DMatrix;

/// A fitted standing-loss line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Cooling {
    /// Loss coefficient UA, W/K.
    pub(crate) loss_coefficient: f64,
    /// Level at the first reading, J.
    pub(crate) level: f64,
    /// Measured minus fitted, J.
    pub(crate) residuals: Vec<f64>,
    /// Derivatives with respect to (level, UA), one row a reading.
    pub(crate) jacobian: DMatrix<f64>,
}

/// Fits heat lost (J) to the running excess integral (K s). `None` with fewer than two readings or no excess.
pub(crate) fn fit(lost: &[f64], excess: &[f64]) -> Option<Cooling> {
    let n = lost.len() as f64;
    let (mean_x, mean_y) = (excess.iter().sum::<f64>() / n, lost.iter().sum::<f64>() / n);
    let (mut sxx, mut sxy) = (0.0, 0.0);
    for (x, y) in excess.iter().zip(lost) {
        sxx += (x - mean_x) * (x - mean_x);
        sxy += (x - mean_x) * (y - mean_y);
    }
    if lost.len() < 2 || sxx <= 0.0 {
        return None;
    }
    let loss_coefficient = sxy / sxx;
    let level = mean_y - loss_coefficient * mean_x;
    Some(Cooling {
        loss_coefficient,
        level,
        residuals: excess.iter().zip(lost).map(|(x, y)| y - level - loss_coefficient * x).collect(),
        jacobian: linear::polynomial(excess, 1),
    })
}
