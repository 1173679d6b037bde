//! The heating rate near one tank temperature, from the readings around it, when no heat balance can be used.
//!
//! A quadratic in time (a straight line with three readings or fewer) through the readings within a band of the stated
//! temperature, and its slope at the crossing.

use crate::series::Series;
use calefact_stats::linear;

/// Half width of the band, K.
pub(crate) const BAND: f64 = 10.0;

/// A local slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LocalSlope {
    /// dT/dt, K/s.
    pub(crate) rate: f64,
    /// Its standard uncertainty, K/s: from the scatter about the curve, or from the neighbouring slopes.
    pub(crate) std_uncertainty: f64,
    /// Degrees of freedom.
    pub(crate) dof: f64,
}

/// Slope at the first rise through `level`. `None` where the tank never rises through it.
pub(crate) fn slope(series: &Series, level: f64) -> Option<LocalSlope> {
    let at = series.first_rise_through(level, f64::NEG_INFINITY)?;
    let (t, tank): (Vec<f64>, Vec<f64>) = near(series, level, at);
    let degree = if t.len() > 4 { 2 } else { 1 };
    let minutes: Vec<f64> = t.iter().map(|t| (t - at) / 60.0).collect();
    let fit = linear::least_squares(&linear::polynomial(&minutes, degree), &tank).ok()?;
    let rate = fit.coefficients[1] / 60.0;
    let (std_uncertainty, dof) = if fit.dof > 0.0 {
        (fit.std_uncertainties[1] / 60.0, fit.dof)
    } else {
        (spread_of_slopes(series, at), f64::INFINITY)
    };
    Some(LocalSlope { rate, std_uncertainty, dof })
}

/// With readings too few for a scatter, the slopes of the intervals beside the crossing's own bound what the rate may be:
/// a rectangular distribution over their range (GUM 4.3.7).
fn spread_of_slopes(series: &Series, at: f64) -> f64 {
    let after = series.t.partition_point(|&t| t < at).clamp(1, series.len() - 1);
    let slope = |i: usize| (series.tank[i] - series.tank[i - 1]) / (series.t[i] - series.t[i - 1]);
    let near = (after.saturating_sub(1).max(1)..=(after + 1).min(series.len() - 1)).map(slope);
    let (low, high) = near.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s), h.max(s)));
    (high - low) / 12.0_f64.sqrt()
}

/// Readings within the band and contiguous with the crossing; at least the two that bracket it.
fn near(series: &Series, level: f64, at: f64) -> (Vec<f64>, Vec<f64>) {
    let after = series.t.partition_point(|&t| t < at).clamp(1, series.len() - 1);
    let inside = |i: &usize| (series.tank[*i] - level).abs() <= BAND;
    let low = (0..after).rev().take_while(inside).last().unwrap_or(after - 1);
    let high = (after..series.len()).take_while(inside).last().unwrap_or(after);
    (series.t[low..=high].to_vec(), series.tank[low..=high].to_vec())
}
