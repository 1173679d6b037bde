//! The heating rate at one tank temperature: the slope of the tank at its first rise through it, from the readings around.
//!
//! Where the log shows how its readings scatter, a parabola in time is fitted to a band of readings. The widest band whose slope
//! agrees with those of all narrower ones within what scatter explains (O. V. Lepskii, On a problem of adaptive estimation in
//! Gaussian white noise, Theory Probab. Appl. 35 (1991) 454) may just have missed a bend, so that one a few steps narrower is
//! taken: a refuelling is followed and a steady fire averaged. Fewer readings give the slope between the two that bracket the
//! crossing; how far the rate may lie from it is bounded by the slopes of the intervals beside it. The constants were chosen
//! on invented burns, refuelled ones among them, logged in 5 to 1500 rows.

use super::noise::Noise;
use super::weights::Weights;
use crate::series::Series;
use std::ops::Range;

/// Half width of the widest band, K.
const BAND: f64 = 10.0;
/// Readings on each side of the crossing in the narrowest band.
const NARROWEST: usize = 2;
/// Bands each hold so many times the readings of the one before.
const GROWTH: f64 = 1.3;
/// Standard uncertainties by which the slope of a band may differ from that of a narrower one.
const AGREES: f64 = 2.0;
/// Steps from the widest band that agrees to the one that is taken.
const BACK: usize = 3;
/// Bands up to so many times as uncertain show how far the slope moves with the width.
const NEAR: f64 = 3.0;
/// A band whose slope is less sure than this share of it tells nothing, and none is compared with it.
const TELLS: f64 = 0.1;
/// Least of the doubt about the slope between two readings, as a share of it, and of the greater step to a slope beside it: where
/// the fire changes close by, part of the change may fall between the two.
const LEAST_DOUBT: f64 = 0.05;
/// See [`LEAST_DOUBT`].
const CHANGE_CLOSE_BY: f64 = 0.2;

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
    Some(fitted.unwrap_or_else(|| secant(window, at, after, noise)))
}

/// The slope of one band.
struct Band {
    weights: Weights,
    rate: f64,
    u: f64,
}

fn fitted(window: &Series, level: f64, at: f64, after: usize, noise: &Noise) -> Option<LocalRate> {
    let bands = bands(window, &widest(window, level, after), at, after, noise);
    let taken = bands.get(bands.len().saturating_sub(1 + BACK))?;
    let near = bands.iter().filter(|b| b.u <= NEAR * taken.u);
    let moved = near.map(|b| (b.rate - taken.rate).abs()).fold(0.0, f64::max);
    // Rectangular, GUM 4.3.7.
    let bend = moved / 3.0_f64.sqrt();
    Some(LocalRate { rate: taken.rate, scatter: taken.u, dof: noise.dof, bend, secant: false })
}

/// Ever wider bands around the crossing, as far as their slopes agree. Narrow ones that tell nothing give way to the next.
fn bands(window: &Series, widest: &Range<usize>, at: f64, after: usize, noise: &Noise) -> Vec<Band> {
    let mut bands: Vec<Band> = Vec::new();
    let (mut half, mut rows) = (NARROWEST, 0..0);
    while rows != *widest {
        rows = after.saturating_sub(half).max(widest.start)..(after + half).min(widest.end);
        half = ((half as f64 * GROWTH) as usize).max(half + 1);
        if rows.len() < 2 * NARROWEST {
            continue;
        }
        let Some(weights) = Weights::slope(&window.t, rows.clone(), at) else { break };
        let band = Band { rate: weights.apply(&window.tank), u: weights.std_uncertainty(noise), weights };
        if bands.last().is_some_and(|narrow| narrow.u > TELLS * narrow.rate.abs()) {
            bands.clear();
        }
        if !bands.iter().all(|narrow| band.agrees(narrow, noise)) {
            break;
        }
        bands.push(band);
    }
    bands
}

impl Band {
    fn agrees(&self, narrow: &Self, noise: &Noise) -> bool {
        let explained = self.weights.less(&narrow.weights).std_uncertainty(noise);
        (self.rate - narrow.rate).abs() <= AGREES * explained
    }
}

/// Readings within the band, contiguous with the crossing.
fn widest(window: &Series, level: f64, after: usize) -> Range<usize> {
    let inside = |i: &usize| (window.tank[*i] - level).abs() <= BAND;
    let low = (0..after).rev().take_while(inside).last().unwrap_or(after - 1);
    let high = (after..window.len()).take_while(inside).last().unwrap_or(after);
    low..high + 1
}

/// The slope between the readings before and after the crossing. A rate that changes does so by no more than the lesser of
/// the steps to the slopes beside it, and moves towards the one that is nearer in time by half of that at most. A slope at an
/// end of the log that is less than the one beside it holds the light-up or the burn-down: the rate lies between the two.
fn secant(window: &Series, at: f64, after: usize, noise: &Noise) -> LocalRate {
    let (t, tank) = (&window.t, &window.tank);
    let slope = |i: usize| (tank[i] - tank[i - 1]) / (t[i] - t[i - 1]);
    let middle = |i: usize| f64::midpoint(t[i], t[i - 1]);
    let (rate, time) = (slope(after), middle(after));
    let step = |i: usize| slope(i) - rate;
    let before = (after > 1).then(|| after - 1);
    let behind = (after + 1 < window.len()).then_some(after + 1);
    let towards = match (before, behind) {
        (Some(i), Some(j)) => {
            let near = if at < time { i } else { j };
            step(near) * (at - time) / (middle(near) - time)
        }
        (Some(only), None) | (None, Some(only)) => step(only).max(0.0),
        (None, None) => 0.0,
    };
    let steps = || [before, behind].into_iter().flatten().map(|i| step(i).abs());
    let (least, most) = (steps().fold(f64::INFINITY, f64::min).min(rate), steps().fold(0.0, f64::max));
    let doubt = least.max(CHANGE_CLOSE_BY * most).max(LEAST_DOUBT * rate);
    LocalRate {
        rate: rate + towards.clamp(-0.5 * least, 0.5 * least),
        scatter: 2.0_f64.sqrt() * noise.sd / (t[after] - t[after - 1]),
        dof: noise.dof,
        bend: doubt / 3.0_f64.sqrt(),
        secant: true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOISE: Noise = Noise { sd: 0.05, rho: 0.0, dof: 20.0 };

    /// A tank read every 30 s for two hours, rising at 0.01 K/s from 10 degC but for a dip of the rate to a half between 2400 and
    /// 3000 s, with 0.05 K up and down in turn by pairs.
    fn refuelled() -> Series {
        let t: Vec<f64> = (0..240).map(|i| 30.0 * f64::from(i)).collect();
        let rise = |t: f64| 0.01 * t - 0.005 * (t - 2400.0).clamp(0.0, 600.0);
        let tank = t.iter().enumerate().map(|(i, t)| 10.0 + rise(*t) + if i / 2 % 2 == 0 { 0.05 } else { -0.05 });
        let tank = tank.collect();
        Series { t, tank, air: Vec::new() }
    }

    #[test]
    fn a_refuelling_is_followed_and_a_steady_fire_averaged() {
        let log = refuelled();
        let dip = rate(&log, 35.5, &NOISE, true).expect("in the dip");
        let allowed = |r: &LocalRate| 2.0 * libm::hypot(r.scatter, r.bend);
        assert!((dip.rate - 0.005).abs() < allowed(&dip) && dip.rate < 0.0065, "{dip:?}");
        let steady = rate(&log, 60.0, &NOISE, true).expect("steady");
        assert!((steady.rate - 0.01).abs() < allowed(&steady) && !steady.secant, "{steady:?}");
        assert!(allowed(&steady) < 0.001, "{steady:?}");
        assert_eq!(rate(&log, 95.0, &NOISE, true), None);
    }

    fn few(tank: &[f64]) -> Series {
        Series { t: (0..tank.len()).map(|i| 1000.0 * i as f64).collect(), tank: tank.to_vec(), air: Vec::new() }
    }

    /// Slopes of 6, 10, 10 and 2 K in 1000 s. Between the equal ones a fifth of the greater step (8 K) is left open; in the first
    /// interval, which holds the light-up, the rate lies half-way to the second by half of the step either way.
    #[test]
    fn few_readings_leave_the_bend_open() {
        let log = few(&[10.0, 16.0, 26.0, 36.0, 38.0]);
        let steady = rate(&log, 27.0, &NOISE, false).expect("steady");
        assert!((steady.rate - 0.010).abs() < 1e-12 && steady.secant);
        assert!((steady.bend - 0.2 * 0.008 / 3.0_f64.sqrt()).abs() < 1e-12, "{steady:?}");
        assert!((steady.scatter - 0.05 * 2.0_f64.sqrt() / 1000.0).abs() < 1e-12);
        let early = rate(&log, 12.0, &NOISE, false).expect("light-up");
        assert!((early.rate - 0.008).abs() < 1e-12 && (early.bend - 0.004 / 3.0_f64.sqrt()).abs() < 1e-12, "{early:?}");
    }

    /// With two readings there is nothing beside: the rate may be anything from nothing to twice the slope.
    #[test]
    fn two_readings_leave_all_open() {
        let only = rate(&few(&[10.0, 30.0]), 20.0, &NOISE, false).expect("two readings");
        assert!((only.rate - 0.02).abs() < 1e-12 && (only.bend - 0.02 / 3.0_f64.sqrt()).abs() < 1e-12, "{only:?}");
    }
}
