//! What the model needs from the log, as plain numbers: end temperatures, integrals, slopes.
//!
//! The log enters the measurement model only through these, so that propagating an instrument error costs the same for
//! five readings and for a million.

use super::capacity::{Capacity, Heat};
use super::ends::End;
use crate::fit::local::LocalRate;
use crate::fit::{Cooling, HeatLine, cooling, heat_line};
use crate::series::{self, Series, interpolate};
use crate::window::Span;
use calefact_physics::water;

/// Numbers drawn from the tank curve over the window.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Features {
    /// Whether the register gives the water as a mass.
    pub(crate) water_is_mass: bool,
    /// Tank at the first reading of the log, when the water was measured, degC.
    pub(crate) fill_c: f64,
    /// Tank at the start of the window, degC.
    pub(crate) start_c: f64,
    /// Tank at the end, degC.
    pub(crate) end_c: f64,
    /// Length of the window, s.
    pub(crate) duration: f64,
    /// Whether weighed fuel belongs to the window.
    pub(crate) whole: bool,
    /// Integral of the tank temperature, degC s.
    pub(crate) tank_integral: f64,
    /// Integral of tank minus air, K s; NaN without air temperature.
    pub(crate) excess_integral: f64,
    /// Mean air temperature, degC; NaN without.
    pub(crate) air_mean: f64,
    /// The heat line for charts, if it could be fitted.
    pub(crate) line: Option<LineFeatures>,
    /// The tank over the steady part, if the log shows one.
    pub(crate) steady: Option<SteadyFeatures>,
    /// Features of the cooling line, if the trial is a standing loss.
    pub(crate) cooling: Option<CoolingFeatures>,
    /// Heating rate from the readings around the stated temperature.
    pub(crate) local_rate: Option<LocalRate>,
    /// Tank temperature at which the rate is stated, degC.
    pub(crate) rate_at: f64,
}

/// The heat line at the best estimates of its inputs.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LineFeatures {
    /// Heat flow, W.
    pub(crate) heat_flow: f64,
    /// Delay, s.
    pub(crate) delay: f64,
    /// Elapsed time at which the fitted part ends, s.
    pub(crate) end: f64,
}

/// The tank between two times.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SteadyFeatures {
    /// Rise of the water's enthalpy over time, J/(kg s).
    pub(crate) enthalpy_slope: f64,
    /// Rise of the tank temperature over time, K/s.
    pub(crate) tank_slope: f64,
    /// Mean of tank minus air, K.
    pub(crate) excess_mean: f64,
    /// Mean tank temperature, degC.
    pub(crate) tank_mean: f64,
}

/// Slopes of the cooling line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CoolingFeatures {
    /// Fall of the water's enthalpy per unit of excess integral, J/(kg K s).
    pub(crate) enthalpy_slope: f64,
    /// Fall of the tank temperature per unit of excess integral, 1/s.
    pub(crate) tank_slope: f64,
    /// Mean excess, K.
    pub(crate) excess_mean: f64,
    /// Mean tank temperature, degC.
    pub(crate) tank_mean: f64,
}

/// Window ends and integrals; the fits are added by `fit_line` and `fit_cooling`. `fill_c` is the tank at the log's first
/// reading.
pub(crate) fn basics(window: &Series, span: Span, water_is_mass: bool, fill_c: f64) -> Features {
    let duration = span.end - span.start;
    Features {
        water_is_mass,
        fill_c,
        start_c: window.tank.first().copied().unwrap_or(f64::NAN),
        end_c: window.tank.last().copied().unwrap_or(f64::NAN),
        duration,
        whole: span.whole,
        tank_integral: window.tank_total(),
        excess_integral: if window.air.is_empty() { f64::NAN } else { window.excess_total() },
        air_mean: window.air_total() / duration,
        line: None,
        steady: None,
        cooling: None,
        local_rate: None,
        rate_at: f64::NAN,
    }
}

/// Fits the heat line: to the steady part (elapsed s) of a burn where one is known, else with its delay to the window.
pub(crate) fn fit_line(window: &Series, heat: &Heat, steady: Option<(f64, f64)>) -> Option<(HeatLine, LineFeatures)> {
    let part = match steady {
        Some((from, to)) => series::between(&window.t, from, to),
        None => 0..window.len(),
    };
    let t = window.t.get(part.clone())?;
    let line = match steady {
        Some(_) => heat_line::straight(t, &heat.delivered[part], window.t[0])?,
        None => heat_line::fit(t, &heat.delivered)?,
    };
    let features = LineFeatures { heat_flow: line.heat_flow, delay: line.delay, end: *t.last()? };
    Some((line, features))
}

/// The tank between the two ends of a part of the window.
pub(crate) fn steady(window: &Series, heat: &Heat, (from, to): (&End, &End)) -> SteadyFeatures {
    let duration = to.at - from.at;
    let over = |integral: &[f64]| {
        (interpolate(&window.t, integral, to.at) - interpolate(&window.t, integral, from.at)) / duration
    };
    SteadyFeatures {
        enthalpy_slope: (water::enthalpy(to.tank) - water::enthalpy(from.tank)) / duration,
        tank_slope: (to.tank - from.tank) / duration,
        excess_mean: over(&heat.excess),
        tank_mean: over(&window.tank_integral()),
    }
}

/// Fits the cooling line over the window.
pub(crate) fn fit_cooling(window: &Series, capacity: Capacity) -> Option<(Cooling, CoolingFeatures)> {
    let excess = window.excess_integral();
    let lost: Vec<f64> = capacity.stored(&window.tank).iter().map(|s| -s).collect();
    let line = cooling::fit(&lost, &excess)?;
    let h: Vec<f64> = window.tank.iter().map(|&t| -water::enthalpy(t)).collect();
    let fall: Vec<f64> = window.tank.iter().map(|t| -t).collect();
    let duration = window.t.last()? - window.t.first()?;
    let features = CoolingFeatures {
        enthalpy_slope: cooling::fit(&h, &excess)?.loss_coefficient,
        tank_slope: cooling::fit(&fall, &excess)?.loss_coefficient,
        excess_mean: excess.last()? / duration,
        tank_mean: window.tank_total() / duration,
    };
    Some((line, features))
}
