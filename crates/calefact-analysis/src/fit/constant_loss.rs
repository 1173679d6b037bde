//! Does one constant-loss model explain reference-heater trials at different powers?
//!
//! P = C dT/dt + UA T - UA Ta is fitted over all trials of a vessel by ordinary least squares on slopes over equal steps of
//! the tank temperature. Where loss does not grow in proportion to the excess (evaporation, a heater that stores heat)
//! the fitted capacity and air temperature are not those of the vessel, and the result says so.

use crate::series::{Series, interpolate};
use calefact_stats::linear;
use nalgebra::DMatrix;

/// The pooled fit.
#[derive(Debug, Clone, PartialEq)]
pub struct ConstantLoss {
    /// Fitted heat capacity C, J/K.
    pub capacity: f64,
    /// Standard error of C.
    pub capacity_u: f64,
    /// Fitted loss coefficient UA, W/K.
    pub loss_coefficient: f64,
    /// Implied air temperature, degC.
    pub air: f64,
    /// Residual standard deviation, W.
    pub residual_sd: f64,
}

/// Fits the model to (series, electric power W) pairs over tank steps of `step` K from `from` to `to` degC.
pub fn fit(trials: &[(&Series, f64)], from: f64, to: f64, step: f64) -> Option<ConstantLoss> {
    let (mut rows, mut power) = (Vec::new(), Vec::new());
    for (series, p) in trials {
        let mut low = from;
        while low + step <= to + 1e-9 {
            if let (Some(a), Some(b)) = (crossing(series, low), crossing(series, low + step)) {
                rows.extend([1.0, step / (b - a), low + 0.5 * step]);
                power.push(*p);
            }
            low += step;
        }
    }
    let fit = linear::least_squares(&DMatrix::from_row_slice(power.len(), 3, &rows), &power).ok()?;
    let [constant, capacity, loss] = fit.coefficients[..] else { return None };
    Some(ConstantLoss {
        capacity,
        capacity_u: fit.std_uncertainties()[1],
        loss_coefficient: loss,
        air: -constant / loss,
        residual_sd: fit.residual_sd,
    })
}

fn crossing(series: &Series, level: f64) -> Option<f64> {
    let at = series.first_rise_through(level, f64::NEG_INFINITY)?;
    debug_assert!((interpolate(&series.t, &series.tank, at) - level).abs() < 1e-6);
    Some(at)
}
