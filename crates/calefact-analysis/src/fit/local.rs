//! The heating rate near one tank temperature, from the readings around it, when no heat balance can be used.
//!
//! A quadratic in time (a straight line with three readings or fewer) through the readings within a band of the stated
//! temperature, and its slope at the crossing.

use crate::series::Series;
use calefact_stats::linear;

/// Half width of the band, K.
pub const BAND: f64 = 10.0;

/// A local slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LocalSlope {
    /// dT/dt, K/s.
    pub rate: f64,
    /// Its standard uncertainty from the scatter about the curve, K/s; NaN where too few readings tell.
    pub std_uncertainty: f64,
    /// Degrees of freedom.
    pub dof: f64,
}

/// Slope at the first rise through `level`. `None` where the tank never rises through it.
pub fn slope(series: &Series, level: f64) -> Option<LocalSlope> {
    let at = series.first_rise_through(level, f64::NEG_INFINITY)?;
    let (t, tank): (Vec<f64>, Vec<f64>) = near(series, level, at);
    let degree = if t.len() > 4 { 2 } else { 1 };
    let minutes: Vec<f64> = t.iter().map(|t| (t - at) / 60.0).collect();
    let fit = linear::least_squares(&linear::polynomial(&minutes, degree), &tank).ok()?;
    let rate = fit.coefficients[1] / 60.0;
    Some(LocalSlope { rate, std_uncertainty: fit.std_uncertainties()[1] / 60.0, dof: fit.dof })
}

/// Readings within the band and contiguous with the crossing; at least the two that bracket it.
fn near(series: &Series, level: f64, at: f64) -> (Vec<f64>, Vec<f64>) {
    let after = series.t.partition_point(|&t| t < at).clamp(1, series.len() - 1);
    let inside = |i: &usize| (series.tank[*i] - level).abs() <= BAND;
    let low = (0..after).rev().take_while(inside).last().unwrap_or(after - 1);
    let high = (after..series.len()).take_while(inside).last().unwrap_or(after);
    (series.t[low..=high].to_vec(), series.tank[low..=high].to_vec())
}
