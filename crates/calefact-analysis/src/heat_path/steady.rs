//! The tank over the steady part: slopes of enthalpy and temperature, mean excess over the air.

use super::scatter::scatter;
use crate::fit::heat_line::slope_from;
use crate::reduce::capacity::Capacity;
use crate::series::{self, Series};
use calefact_physics::water;

/// Numbers drawn from the tank curve over the steady part.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SteadyTank {
    /// Slope of the water's enthalpy, J/(kg s).
    pub(crate) enthalpy_slope: f64,
    /// Slope of the tank temperature, K/s.
    pub(crate) tank_slope: f64,
    /// Mean tank temperature, degC.
    pub(crate) tank_mean: f64,
    /// Mean air temperature, degC; NaN without.
    pub(crate) air_mean: f64,
    /// Length of the steady part, s.
    pub(crate) duration: f64,
}

/// Draws them from the readings of a time range, given the specific enthalpy of the water at every reading of the log (J/kg).
/// `None` where the range holds less than two readings.
pub(crate) fn steady_tank(series: &Series, enthalpies: &[f64], range: (f64, f64)) -> Option<SteadyTank> {
    let cut = series.between(range.0, range.1);
    let duration = range.1 - range.0;
    if series::between(&series.t, range.0, range.1).len() < 2 {
        return None;
    }
    let enthalpy = enthalpies_between(series, enthalpies, &cut, range);
    let tank_mean = cut.tank_total() / duration;
    let air_mean = if cut.air.is_empty() { f64::NAN } else { tank_mean - cut.excess_total() / duration };
    Some(SteadyTank {
        enthalpy_slope: slope_from(&cut.t, &enthalpy, 0),
        tank_slope: slope_from(&cut.t, &cut.tank, 0),
        tank_mean,
        air_mean,
        duration,
    })
}

/// Enthalpies of a part that was cut out: those of its readings are known.
fn enthalpies_between(series: &Series, enthalpies: &[f64], cut: &Series, (start, end): (f64, f64)) -> Vec<f64> {
    let ends = [cut.tank[0], cut.tank[cut.len() - 1]].map(water::enthalpy);
    [&ends[..1], &enthalpies[series.inner(start, end)], &ends[1..]].concat()
}

/// Random standard error of the heat flow over a time range, W, and its degrees of freedom: scatter of the delivered heat
/// about its course, as the standard error of a slope, and how uneven the flow was. The display step is its floor. `None` with
/// too few readings for a scatter.
pub(crate) fn noise(series: &Series, range: (f64, f64), capacity: Capacity, step: f64) -> Option<(f64, f64)> {
    let cut = series.between(range.0, range.1);
    let n = cut.len() as f64;
    let stored = capacity.stored(&cut.tank);
    let middle = cut.t.iter().sum::<f64>() / n;
    let root = cut.t.iter().map(|t| (t - middle) * (t - middle)).sum::<f64>().sqrt();
    let floor = step * capacity.at(cut.tank[0]) / root;
    let s = scatter(&cut.t, &stored)?;
    // Where the heat flow was not constant the line and the end points differ: half of that counts as error too.
    let ends = (stored[stored.len() - 1] - stored[0]) / (range.1 - range.0);
    let uneven = 0.5 * (slope_from(&cut.t, &stored, 0) - ends);
    let u = libm::hypot(s.sd * (n / s.independent).sqrt() / root, uneven);
    Some(if u > floor { (u, s.dof) } else { (floor, f64::INFINITY) })
}

/// Most stretches a curve is cut into.
const STRETCHES: usize = 8;
/// Light-up and burn-down of a log with no stretch left out lower its mean heat flow by up to this share (common practice, no
/// source).
const EDGES: f64 = 0.3;
/// The mean over the steady part may lie off the flow of a part of it by this share either way: metal warms on for some minutes
/// once the fire is steady, and a steady fire wavers (common practice, no source).
const WAVERING: f64 = 0.03;

/// Doubt about the heat flow of a part with few readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct FewReadings {
    /// Standard uncertainty from the scatter of the readings at its ends, W.
    pub(crate) ends: f64,
    /// How far the steady flow may lie below that of the part (negative) and above it, W.
    pub(crate) open: (f64, f64),
}

/// Doubt that few readings leave. Each has a standard deviation of `reading` K. Beside them the steady flow may lie anywhere
/// from a little below that of the part ([`WAVERING`]) to as much above it, to that of the steepest stretch of the whole log
/// where that is more, or higher by [`EDGES`] where the part is the whole log.
pub(crate) fn few(series: &Series, part: (f64, f64), capacity: Capacity, reading: f64) -> FewReadings {
    let cut = series.between(part.0, part.1);
    let (stored, all) = (capacity.stored(&cut.tank), capacity.stored(&series.tank));
    let flow = slope_from(&cut.t, &stored, 0);
    let is_whole = part.0 <= series.t[0] && part.1 >= series.t[series.len() - 1];
    let edges = if is_whole { EDGES * flow.abs() } else { 0.0 };
    let wavers = WAVERING * flow.abs();
    let above = (steepest(&series.t, &all) - flow).max(edges).max(wavers);
    let ends = 2.0_f64.sqrt() * reading * capacity.at(cut.tank[0]) / (part.1 - part.0);
    FewReadings { ends, open: (-wavers, above) }
}

/// Heat flow of the steepest stretch, W: `e` is heat (J) at times `t` (s).
fn steepest(t: &[f64], e: &[f64]) -> f64 {
    let step = t.len().saturating_sub(1).div_ceil(STRETCHES).max(1);
    let ends: Vec<usize> = (0..t.len()).step_by(step).collect();
    let slope = |a: usize, b: usize| (e[b] - e[a]) / (t[b] - t[a]);
    ends.windows(2).map(|w| slope(w[0], w[1])).fold(f64::NEG_INFINITY, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reduce::capacity::enthalpies;

    const VESSEL: Capacity = Capacity { water_kg: 0.0, vessel: 1000.0, loss: 0.0 };

    /// 25 readings over 1200 s of a tank at `tank(x)`, x from -1 to 1.
    fn series(tank: impl Fn(f64, usize) -> f64) -> Series {
        let t: Vec<f64> = (0..25).map(|i| 50.0 * f64::from(i)).collect();
        let tank = t.iter().enumerate().map(|(i, t)| tank((t - 600.0) / 600.0, i)).collect();
        Series { t, tank, air: Vec::new() }
    }

    /// Sum of powers of x over the readings.
    fn sum(power: i32) -> f64 {
        (0..25).map(|i| (f64::from(i) / 12.0 - 1.0).powi(power)).sum()
    }

    /// Of T = 40 + 5 x + 2 x^3 the least-squares slope in x is 5 + 2 S4/S2 and that of the end points 7: half of the
    /// difference is the error, and nothing scatters.
    #[test]
    fn an_uneven_flow_counts_half_of_what_line_and_end_points_differ() {
        let cubic = series(|x, _| 40.0 + 5.0 * x + 2.0 * x * x * x);
        let (u, _) = noise(&cubic, (0.0, 1200.0), VESSEL, 0.0).expect("enough");
        let expected = 0.5 * VESSEL.vessel * 2.0 * (1.0 - sum(4) / sum(2)) / 600.0;
        assert!((u / expected - 1.0).abs() < 1e-6, "{u} for {expected}");
    }

    /// Readings 0.1 K above and below a line: the standard error of a slope is s / sqrt(sum (t - mean)^2), with s from
    /// 25 - 5 degrees of freedom (a course of the fourth degree). The unevenness of the ends adds less than a tenth.
    #[test]
    fn scatter_counts_as_the_standard_error_of_a_slope() {
        let zigzag = series(|x, i| 40.0 + 5.0 * x + if i % 2 == 0 { 0.1 } else { -0.1 });
        let (u, dof) = noise(&zigzag, (0.0, 1200.0), VESSEL, 0.0).expect("enough");
        let expected = VESSEL.vessel * 0.1 * (25.0_f64 / 20.0).sqrt() / (600.0 * sum(2).sqrt());
        assert!((u / expected - 1.0).abs() < 0.1, "{u} for {expected}");
        assert!((dof - 20.0).abs() < 1e-9, "{dof}");
    }

    #[test]
    fn the_display_step_is_the_least_error() {
        let line = series(|x, _| 40.0 + 5.0 * x);
        let (u, dof) = noise(&line, (0.0, 1200.0), VESSEL, 0.3).expect("enough");
        assert!((u / (0.3 * VESSEL.vessel / (600.0 * sum(2).sqrt())) - 1.0).abs() < 1e-9 && dof.is_infinite());
    }

    /// By hand: stretches of 3, 6, 5 and 2 K in 600 s each, of 1000 J/K. Over the middle two the flow is 9.17 W, 3 % of it
    /// may be too much, and the steepest stretch has 10 W; over the whole log 30 % may be missing.
    #[test]
    fn few_readings_leave_the_steepest_stretch_open() {
        let t: Vec<f64> = (0..5).map(|i| 600.0 * f64::from(i)).collect();
        let series = Series { t, tank: vec![20.0, 23.0, 29.0, 34.0, 36.0], air: Vec::new() };
        let inner = few(&series, (600.0, 1800.0), VESSEL, 0.3);
        let flow = 11_000.0 / 1200.0;
        assert!((inner.open.1 - (10.0 - flow)).abs() < 1e-9 && (inner.open.0 + 0.03 * flow).abs() < 1e-9, "{inner:?}");
        assert!((inner.ends - 0.25 * 2.0_f64.sqrt()).abs() < 1e-9, "{inner:?}");
        let two = Series { t: vec![0.0, 600.0], tank: vec![20.0, 26.0], air: Vec::new() };
        assert!((few(&two, (0.0, 600.0), VESSEL, 0.0).open.1 - 3.0).abs() < 1e-9);
    }

    /// A tank that rises by 0.01 K/s in air of 15 degC.
    #[test]
    fn slopes_and_means_of_a_straight_rise() {
        let mut rise = series(|x, _| 40.0 + 6.0 * x);
        rise.air = vec![15.0; 25];
        let enthalpies = enthalpies(&rise.tank);
        let tank = steady_tank(&rise, &enthalpies, (300.0, 900.0)).expect("thirteen readings");
        assert!((tank.tank_slope - 0.01).abs() < 1e-12 && (tank.tank_mean - 40.0).abs() < 1e-9);
        assert!((tank.enthalpy_slope / (0.01 * water::heat_capacity(40.0)) - 1.0).abs() < 1e-4);
        assert!((tank.air_mean - 15.0).abs() < 0.02, "{}", tank.air_mean);
        assert_eq!(steady_tank(&rise, &enthalpies, (310.0, 390.0)), None, "one reading");
    }
}
