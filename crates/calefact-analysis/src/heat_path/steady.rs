//! The tank over the steady part: slopes of enthalpy and temperature, mean excess over the air.

use super::scatter::scatter;
use crate::fit::few::unevenness;
use crate::fit::heat_line::slope_from;
use crate::reduce::features::Capacity;
use crate::series::{self, Series};
use calefact_physics::water;

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
}

/// Draws them from the readings of a time range. `None` where it holds less than two readings.
pub fn steady_tank(series: &Series, range: (f64, f64)) -> Option<SteadyTank> {
    let cut = series.between(range.0, range.1);
    let duration = range.1 - range.0;
    if series::between(&series.t, range.0, range.1).len() < 2 {
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
    })
}

/// Random standard error of the heat flow over a time range, W, and its degrees of freedom: scatter of the delivered heat
/// about its course, as the standard error of a slope, and how uneven the flow was. The display step is its floor. Too few
/// readings for a scatter leave the unevenness of the flow open.
pub fn noise(series: &Series, range: (f64, f64), capacity: Capacity, step: f64) -> (f64, f64) {
    let cut = series.between(range.0, range.1);
    let n = cut.len() as f64;
    let stored = capacity.stored(&cut.tank);
    let middle = cut.t.iter().sum::<f64>() / n;
    let root = cut.t.iter().map(|t| (t - middle) * (t - middle)).sum::<f64>().sqrt();
    let floor = step * capacity.at(cut.tank[0]) / root;
    let Some(s) = scatter(&cut.t, &stored) else {
        return (libm::hypot(floor, unevenness(&cut.t, &stored)), f64::INFINITY);
    };
    // Where the heat flow was not constant the line and the end points differ: half of that counts as error too.
    let ends = (stored[stored.len() - 1] - stored[0]) / (range.1 - range.0);
    let uneven = 0.5 * (slope_from(&cut.t, &stored, 0) - ends);
    let u = libm::hypot(s.sd * (n / s.independent).sqrt() / root, uneven);
    if u > floor { (u, s.dof) } else { (floor, f64::INFINITY) }
}
