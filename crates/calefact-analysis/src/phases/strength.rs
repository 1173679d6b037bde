//! How strongly the fire burns over time, as far as the log shows: 1 is the plateau.

use super::phase::FEW;
use crate::series::{self, Series};
use calefact_data::{Channel, Readings};
use calefact_physics::water;

/// Most points of the grid.
const MOST: usize = 400;
/// The smoothing width is this share of the log, and three readings at least.
const WIDTH: f64 = 1.0 / 40.0;
/// The heat flow into the tank is a slope over this share of the width either way: a slope spans two, and so tank and other
/// signals are equally sharp.
pub(crate) const REACH: f64 = 0.7;

/// Strength on an even grid.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Strength {
    /// Times, s.
    pub(super) t: Vec<f64>,
    /// Strength, 1 on the plateau.
    pub(super) s: Vec<f64>,
    /// Smoothing width, s.
    pub(super) width: f64,
}

/// Strength of a log; all zeros where nothing rises.
pub(super) fn strength(readings: &Readings, series: &Series, loss_rate: f64) -> Strength {
    let (first, last) = (series.t[0], series.t[series.len() - 1]);
    let reading = (last - first) / (series.len() - 1) as f64;
    let width = (WIDTH * (last - first)).max(3.0 * reading);
    let points = series.len().clamp(FEW, MOST);
    let t: Vec<f64> = (0..points).map(|i| first + (last - first) * i as f64 / (points - 1) as f64).collect();
    let mut signals = vec![tank_flow(series, loss_rate, &t, width)];
    signals.extend(gas(readings, series).map(|c| c.smooth(&t, 0.5 * width)));
    signals.extend(difference(readings, Channel::CoilOut, Channel::CoilIn).map(|c| c.smooth(&t, 0.5 * width)));
    let scaled: Vec<Vec<f64>> = signals.into_iter().filter_map(scale).collect();
    let mean = |i: usize| scaled.iter().map(|v| v[i]).sum::<f64>() / scaled.len().max(1) as f64;
    let s = (0..points).map(mean).collect();
    Strength { t, s: scale(s).unwrap_or_else(|| vec![0.0; points]), width }
}

/// Plateau of a signal: median of what lies above half of the 95th percentile. `None` where nothing is positive.
fn plateau(v: &[f64]) -> Option<f64> {
    let mut v = v.to_vec();
    let rank = (0.95 * v.len().checked_sub(1)? as f64) as usize;
    let high = *v.select_nth_unstable_by(rank, f64::total_cmp).1;
    if high <= 0.0 || high.is_nan() {
        return None;
    }
    v.retain(|x| *x >= 0.5 * high);
    let middle = v.len() / 2;
    Some(*v.select_nth_unstable_by(middle, f64::total_cmp).1)
}

/// A signal over its plateau.
fn scale(v: Vec<f64>) -> Option<Vec<f64>> {
    let level = plateau(&v)?;
    Some(v.into_iter().map(|x| x / level).collect())
}

/// Values with their running integral, so that any mean costs the same.
struct Column {
    t: Vec<f64>,
    v: Vec<f64>,
    integral: Vec<f64>,
}

impl Column {
    fn new(t: Vec<f64>, v: Vec<f64>) -> Option<Self> {
        if t.len() < 2 {
            return None;
        }
        let integral = series::running(&t, &v, f64::midpoint);
        Some(Self { t, v, integral })
    }

    /// Mean between two times inside the column.
    fn mean(&self, from: f64, to: f64) -> f64 {
        (self.integral_at(to) - self.integral_at(from)) / (to - from)
    }

    fn integral_at(&self, at: f64) -> f64 {
        let i = series::after(&self.t, at).clamp(1, self.t.len() - 1);
        let (dt, step) = (at - self.t[i - 1], self.t[i] - self.t[i - 1]);
        let value = self.v[i - 1] + (self.v[i] - self.v[i - 1]) * (dt / step).min(1.0);
        self.integral[i - 1] + 0.5 * dt * (self.v[i - 1] + value)
    }

    /// Moving mean of half width `half`, cut at the ends.
    fn smooth(&self, grid: &[f64], half: f64) -> Vec<f64> {
        let (first, last) = (self.t[0], self.t[self.t.len() - 1]);
        let at = |&t: &f64| {
            let t = t.clamp(first, last);
            self.mean((t - half).max(first), (t + half).min(last))
        };
        grid.iter().map(at).collect()
    }

    /// Slope between the means of `width` before and after each grid point, moved inside at the ends.
    fn slope(&self, grid: &[f64], width: f64) -> Vec<f64> {
        let (first, last) = (self.t[0], self.t[self.t.len() - 1]);
        let width = width.min(0.5 * (last - first));
        let at = |&t: &f64| {
            // Not `clamp`: where the width is half of the log, rounding may part the two ends the wrong way.
            let t = t.max(first + width).min(last - width);
            (self.mean(t, t + width) - self.mean(t - width, t)) / width
        };
        grid.iter().map(at).collect()
    }
}

/// Heat flow into the tank per heat capacity of the water: slope of h(T)/c plus the loss.
fn tank_flow(series: &Series, loss_rate: f64, grid: &[f64], width: f64) -> Vec<f64> {
    let known = loss_rate > 0.0 && !series.air.is_empty();
    let excess = if known { series.excess_integral() } else { vec![0.0; series.len()] };
    let heat = |(tank, x): (&f64, &f64)| water::enthalpy(*tank) / 4186.0 + loss_rate * x;
    let delivered = series.tank.iter().zip(&excess).map(heat).collect();
    Column::new(series.t.clone(), delivered).map_or_else(|| vec![0.0; grid.len()], |c| c.slope(grid, REACH * width))
}

/// Fall of the gas over the exchanger; else the excess of the one flue probe over the air or the tank's start.
fn gas(readings: &Readings, series: &Series) -> Option<Column> {
    difference(readings, Channel::FlueBefore, Channel::FlueAfter).or_else(|| {
        let flue = [Channel::FlueBefore, Channel::FlueAfter].into_iter().find_map(|c| readings.channel(c))?;
        let rest = series.air.first().copied().unwrap_or(series.tank[0]);
        let (t, v) = series::known(&readings.elapsed_s, flue.iter().map(|gas| gas - rest));
        Column::new(t, v)
    })
}

fn difference(readings: &Readings, a: Channel, b: Channel) -> Option<Column> {
    let (a, b) = (readings.channel(a)?, readings.channel(b)?);
    let (t, v) = series::known(&readings.elapsed_s, a.iter().zip(b).map(|(a, b)| a - b));
    Column::new(t, v)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: up from 0 to 10 in 10 s, down to -10 in 20 s. Up to 5, 10, 20 and 30 s the areas are 12.5, 50, 100 and 50.
    #[test]
    fn means_between_readings() {
        let column = Column::new(vec![0.0, 10.0, 30.0], vec![0.0, 10.0, -10.0]).expect("three readings");
        for (from, to, area) in [(5.0, 20.0, 87.5), (0.0, 30.0, 50.0), (10.0, 30.0, 0.0), (20.0, 30.0, -50.0)] {
            assert!((column.mean(from, to) - area / (to - from)).abs() < 1e-12, "{from} to {to}");
        }
        let smooth = column.smooth(&[-5.0, 15.0, 40.0], 5.0);
        let wanted = [12.5 / 5.0, 50.0 / 10.0, -37.5 / 5.0];
        assert!(smooth.iter().zip(wanted).all(|(s, w)| (s - w).abs() < 1e-12), "{smooth:?}");
    }

    /// A straight line has its slope everywhere; of t^2, between the means of 2 s before and after t it is 2 t.
    #[test]
    fn slopes_between_means() {
        let t: Vec<f64> = (0..=2000).map(|i| 0.01 * f64::from(i)).collect();
        let of = |f: &dyn Fn(f64) -> f64, grid: &[f64]| {
            Column::new(t.clone(), t.iter().map(|t| f(*t)).collect()).expect("a column").slope(grid, 2.0)
        };
        assert!(of(&|t| 3.0 * t - 1.0, &[0.0, 7.3, 20.0]).iter().all(|s| (s - 3.0).abs() < 1e-9));
        let parabola = of(&|t| t * t, &[0.0, 7.3, 20.0]);
        assert!(parabola.iter().zip([4.0, 14.6, 36.0]).all(|(s, w)| (s - w).abs() < 1e-3), "{parabola:?}");
    }
}
