//! The heating rate at one tank temperature: the slope of the tank at its first rise through it, from the readings around.
//!
//! Where the log shows how its readings scatter, a parabola in time is fitted to a band of readings. The band is the widest
//! whose slope agrees with those of all narrower ones within what scatter explains (O. V. Lepskii, On a problem of adaptive
//! estimation in Gaussian white noise, Theory Probab. Appl. 35 (1991) 454), so that a refuelling is followed and a steady fire
//! averaged. Fewer readings give the slope between the two that bracket the crossing; how far the rate may lie from it is
//! bounded by the slopes of the intervals beside it.

use super::noise::Noise;
use super::weights::Weights;
use crate::series::Series;
use std::ops::Range;

/// Half width of the widest band, K.
const BAND: f64 = 10.0;
/// Readings on each side of the crossing in the narrowest band.
const NARROWEST: usize = 3;
/// Bands each hold so many times the readings of the one before.
const GROWTH: f64 = 1.3;
/// Standard uncertainties by which the slope of a band may differ from that of a narrower one.
const AGREES: f64 = 2.0;
/// Least of the doubt about few readings, as a share of the slope.
const LEAST_DOUBT: f64 = 0.05;

/// The heating rate at a crossing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LocalRate {
    /// dT/dt, K/s.
    pub(crate) rate: f64,
    /// Its standard uncertainty from the scatter of the readings, K/s.
    pub(crate) scatter: f64,
    /// Degrees of freedom of it.
    pub(crate) dof: f64,
    /// Standard uncertainty from the bend of the curve, K/s.
    pub(crate) bend: f64,
    /// Whether the rate is the slope between two readings.
    pub(crate) secant: bool,
}

/// Rate at the first rise through `level`; `shown` is whether the scatter is that of the log itself. `None` where the tank
/// never rises through the level.
pub(crate) fn rate(window: &Series, level: f64, noise: &Noise, shown: bool) -> Option<LocalRate> {
    let at = window.first_rise_through(level, f64::NEG_INFINITY)?;
    let after = window.t.partition_point(|&t| t < at).clamp(1, window.len() - 1);
    let fitted = shown.then(|| fitted(window, level, at, after, noise)).flatten();
    Some(fitted.unwrap_or_else(|| secant(window, after, noise)))
}

/// The slope of one band.
struct Band {
    weights: Weights,
    rate: f64,
    u: f64,
}

fn fitted(window: &Series, level: f64, at: f64, after: usize, noise: &Noise) -> Option<LocalRate> {
    let widest = widest(window, level, after);
    let mut bands: Vec<Band> = Vec::new();
    let (mut half, mut last) = (NARROWEST, 0..0);
    while last != widest {
        let rows = after.saturating_sub(half).max(widest.start)..(after + half).min(widest.end);
        if rows.len() >= 2 * NARROWEST {
            let weights = Weights::slope(&window.t, rows.clone(), at)?;
            let band = Band { rate: weights.apply(&window.tank), u: weights.std_uncertainty(noise), weights };
            let agrees = |narrow: &Band| {
                (band.rate - narrow.rate).abs() <= AGREES * band.weights.less(&narrow.weights).std_uncertainty(noise)
            };
            if !bands.iter().all(agrees) {
                break;
            }
            bands.push(band);
        }
        last = rows;
        half = ((half as f64 * GROWTH) as usize).max(half + 1);
    }
    let best = bands.iter().min_by(|a, b| a.u.total_cmp(&b.u))?;
    // Bands at most twice as uncertain show how far the slope moves with the width: rectangular, GUM 4.3.7.
    let near = bands.iter().filter(|b| b.u <= 2.0 * best.u);
    let moved = near.map(|b| (b.rate - best.rate).abs()).fold(0.0, f64::max);
    let bend = moved / 3.0_f64.sqrt();
    Some(LocalRate { rate: best.rate, scatter: best.u, dof: noise.dof, bend, secant: false })
}

/// Readings within the band, contiguous with the crossing.
fn widest(window: &Series, level: f64, after: usize) -> Range<usize> {
    let inside = |i: &usize| (window.tank[*i] - level).abs() <= BAND;
    let low = (0..after).rev().take_while(inside).last().unwrap_or(after - 1);
    let high = (after..window.len()).take_while(inside).last().unwrap_or(after);
    low..high + 1
}

/// The slope between the readings before and after the crossing. A rate that changes does so by no more than the lesser of
/// the steps to the slopes beside it.
fn secant(window: &Series, after: usize, noise: &Noise) -> LocalRate {
    let slope = |i: usize| (window.tank[i] - window.tank[i - 1]) / (window.t[i] - window.t[i - 1]);
    let rate = slope(after);
    let beside = [after.checked_sub(1).filter(|i| *i > 0), Some(after + 1).filter(|i| *i < window.len())];
    let steps = beside.into_iter().flatten().map(|i| (slope(i) - rate).abs());
    let bound = steps.fold(f64::INFINITY, f64::min).min(rate).max(LEAST_DOUBT * rate);
    let scatter = 2.0_f64.sqrt() * noise.sd / (window.t[after] - window.t[after - 1]);
    LocalRate { rate, scatter, dof: noise.dof, bend: bound / 3.0_f64.sqrt(), secant: true }
}
