//! The tank over the steady part: slopes of enthalpy and temperature, mean excess over the air.

use crate::fit::heat_line::slope_from;
use crate::reduce::features::Capacity;
use crate::series::Series;
use calefact_physics::water;
use calefact_stats::residuals;
use nalgebra::DMatrix;

/// Numbers drawn from the tank curve over the steady part.
#[derive(Debug, Clone, PartialEq)]
pub struct SteadyTank {
    /// Slope of the water's enthalpy, J/(kg s).
    pub enthalpy_slope: f64,
    /// Slope of the tank temperature, K/s.
    pub tank_slope: f64,
    /// Mean tank temperature, degC.
    pub tank_mean: f64,
    /// Mean air temperature, degC; NaN without.
    pub air_mean: f64,
    /// Length of the steady part, s.
    pub duration: f64,
    /// Random standard error of the heat flow, W, and its degrees of freedom.
    pub noise: (f64, f64),
}

/// Draws them from the readings of a time range. `None` where it holds less than two readings.
pub fn steady_tank(series: &Series, range: (f64, f64), capacity: Capacity, step: f64) -> Option<SteadyTank> {
    let cut = series.between(range.0, range.1);
    let duration = range.1 - range.0;
    if series.t.iter().filter(|t| (range.0..=range.1).contains(*t)).count() < 2 {
        return None;
    }
    let enthalpy: Vec<f64> = cut.tank.iter().map(|&t| water::enthalpy(t)).collect();
    let tank_mean = cut.tank_integral().last()? / duration;
    let air_mean = if cut.air.is_empty() { f64::NAN } else { tank_mean - cut.excess_integral().last()? / duration };
    Some(SteadyTank {
        enthalpy_slope: slope_from(&cut.t, &enthalpy, 0),
        tank_slope: slope_from(&cut.t, &cut.tank, 0),
        tank_mean,
        air_mean,
        duration,
        noise: noise(&cut, capacity, step),
    })
}

/// Scatter of delivered heat about its straight line, as the standard error of the slope; the display step is its floor.
fn noise(cut: &Series, capacity: Capacity, step: f64) -> (f64, f64) {
    let n = cut.len() as f64;
    let stored = capacity.stored(&cut.tank);
    let lost = if cut.air.is_empty() || capacity.loss.is_nan() { vec![0.0; cut.len()] } else { cut.excess_integral() };
    let loss = if capacity.loss.is_nan() { 0.0 } else { capacity.loss };
    let e: Vec<f64> = stored.iter().zip(&lost).map(|(s, x)| s + loss * x).collect();
    let (middle, mean) = (cut.t.iter().sum::<f64>() / n, e.iter().sum::<f64>() / n);
    let slope = slope_from(&cut.t, &e, 0);
    let sxx: f64 = cut.t.iter().map(|t| (t - middle) * (t - middle)).sum();
    let floor = step * capacity.at(cut.tank[0]) / sxx.sqrt();
    let left: Vec<f64> = cut.t.iter().zip(&e).map(|(t, e)| e - mean - slope * (t - middle)).collect();
    if cut.len() < 4 || left.iter().all(|r| *r == 0.0) {
        return (floor, f64::INFINITY);
    }
    let design = DMatrix::from_fn(cut.len(), 2, |i, j| if j == 0 { 1.0 } else { cut.t[i] - middle });
    let robust = residuals::robust_covariance(&design, &left);
    let (u, dof) =
        robust.map_or((0.0, f64::INFINITY), |r| (r.covariance[(1, 1)].max(0.0).sqrt(), r.dof_by_parameter[1]));
    if u > floor { (u, dof) } else { (floor, f64::INFINITY) }
}
