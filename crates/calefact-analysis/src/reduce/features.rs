//! What the model needs from the log, as plain numbers: end temperatures, integrals, slopes.
//!
//! The log enters the measurement model only through these, so that propagating an instrument error costs the same for
//! five readings and for a million.

use crate::fit::{Cooling, HeatLine, cooling, heat_line, local};
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
    /// Features of the heat line, if it could be fitted.
    pub(crate) line: Option<LineFeatures>,
    /// Whether the heat line gives the heat flow: it fits, or a steady part was found; else the mean over the window does.
    pub(crate) line_fits: bool,
    /// Features of the cooling line, if the trial is a standing loss.
    pub(crate) cooling: Option<CoolingFeatures>,
    /// Heating rate from the readings around the stated temperature, K/s.
    pub(crate) local_rate: Option<local::LocalSlope>,
    /// Tank temperature at which the rate is stated, degC, and the air temperature then.
    pub(crate) rate_at: (f64, f64),
}

impl Features {
    /// Whether the heating rate comes from the heat line: it fits, and the tank passes the stated temperature.
    pub(crate) fn rate_from_line(&self) -> bool {
        self.rate_at.1.is_finite()
    }
}

/// Slopes over the sloping part of the heat line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LineFeatures {
    /// Slope of the water's enthalpy, J/(kg s).
    pub(crate) enthalpy_slope: f64,
    /// Slope of the tank temperature, K/s.
    pub(crate) tank_slope: f64,
    /// Slope of the excess integral: the mean excess, K.
    pub(crate) excess_slope: f64,
    /// Mean tank temperature, degC.
    pub(crate) tank_mean: f64,
    /// Delay, s.
    pub(crate) delay: f64,
    /// Elapsed time at which the fitted part begins, s.
    pub(crate) start: f64,
    /// Elapsed time at which the fitted part ends, s.
    pub(crate) end: f64,
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
    let has_air = !window.air.is_empty();
    let last = |v: Vec<f64>| v.last().copied().unwrap_or(f64::NAN);
    let tank_integral = last(window.tank_integral());
    let excess_integral = if has_air { last(window.excess_integral()) } else { f64::NAN };
    Features {
        water_is_mass,
        fill_c,
        start_c: window.tank.first().copied().unwrap_or(f64::NAN),
        end_c: window.tank.last().copied().unwrap_or(f64::NAN),
        duration,
        whole: span.whole,
        tank_integral,
        excess_integral,
        air_mean: if has_air { (tank_integral - excess_integral) / duration } else { f64::NAN },
        line: None,
        line_fits: false,
        cooling: None,
        local_rate: None,
        rate_at: (f64::NAN, f64::NAN),
    }
}

/// Water mass, kg, vessel capacity, J/K, and loss coefficient, W/K, that turn temperatures into heat in a fit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Capacity {
    /// Water, kg.
    pub(crate) water_kg: f64,
    /// Vessel, J/K.
    pub(crate) vessel: f64,
    /// Loss coefficient, W/K.
    pub(crate) loss: f64,
}

impl Capacity {
    /// Heat stored since the first reading, J.
    pub(crate) fn stored(&self, tank: &[f64]) -> Vec<f64> {
        self.stored_by(tank, &enthalpies(tank))
    }

    /// Heat that takes the tank from one temperature to another, J.
    pub(crate) fn stored_from(&self, from: f64, to: f64) -> f64 {
        self.water_kg * (water::enthalpy(to) - water::enthalpy(from)) + self.vessel * (to - from)
    }

    fn stored_by(&self, tank: &[f64], enthalpy: &[f64]) -> Vec<f64> {
        let (Some(&first), Some(&h0)) = (tank.first(), enthalpy.first()) else { return Vec::new() };
        let stored = |(t, h): (&f64, &f64)| self.water_kg * (h - h0) + self.vessel * (t - first);
        tank.iter().zip(enthalpy).map(stored).collect()
    }

    /// A window as heat.
    pub(crate) fn heat(&self, window: &Series) -> Heat {
        let (enthalpy, excess) = (enthalpies(&window.tank), window.excess_integral());
        let stored = self.stored_by(&window.tank, &enthalpy);
        let delivered = stored.iter().zip(&excess).map(|(s, x)| s + self.loss * x).collect();
        Heat { enthalpy, excess, delivered }
    }

    /// Loss over heat capacity at a temperature, 1/s; zero where either is unknown.
    pub(crate) fn loss_rate(&self, tank_c: f64) -> f64 {
        let rate = self.loss / self.at(tank_c);
        if rate.is_finite() { rate } else { 0.0 }
    }

    /// Heat capacity of water and vessel at a temperature, J/K.
    pub(crate) fn at(&self, tank_c: f64) -> f64 {
        self.water_kg * water::heat_capacity(tank_c) + self.vessel
    }
}

fn enthalpies(tank: &[f64]) -> Vec<f64> {
    tank.iter().map(|&t| water::enthalpy(t)).collect()
}

/// The readings of a window as heat, worked out once for every fit to them.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Heat {
    /// Specific enthalpy of the water, J/kg.
    pub(crate) enthalpy: Vec<f64>,
    /// Running integral of tank minus air, K s.
    pub(crate) excess: Vec<f64>,
    /// Delivered since the first reading: stored and lost, J.
    pub(crate) delivered: Vec<f64>,
}

/// Fits the heat line: to the steady part (elapsed s) of a burn where one is known, else with its delay to the window.
pub(crate) fn fit_line(window: &Series, heat: &Heat, steady: Option<(f64, f64)>) -> Option<(HeatLine, LineFeatures)> {
    let part = match steady {
        Some((from, to)) => series::between(&window.t, from, to),
        None => 0..window.len(),
    };
    let t = window.t.get(part.clone())?;
    let line = match steady {
        Some(_) => heat_line::straight(t, &heat.delivered[part.clone()], window.t[0])?,
        None => heat_line::fit(t, &heat.delivered)?,
    };
    let slope = |y: &[f64]| heat_line::slope_from(t, &y[part.clone()], line.first);
    let sloping = &window.tank[part.clone()][line.first..];
    let features = LineFeatures {
        enthalpy_slope: slope(&heat.enthalpy),
        tank_slope: slope(&window.tank),
        excess_slope: slope(&heat.excess),
        tank_mean: sloping.iter().sum::<f64>() / sloping.len() as f64,
        delay: line.delay,
        start: t[line.first],
        end: *t.last()?,
    };
    Some((line, features))
}

/// Heat flow over part of a window (elapsed s), W; `None` with fewer than three readings there.
pub(crate) fn flow(window: &Series, heat: &Heat, (from, to): (f64, f64)) -> Option<f64> {
    let rows = series::between(&window.t, from, to);
    (rows.len() >= 3).then(|| heat_line::slope_from(&window.t[rows.clone()], &heat.delivered[rows], 0))
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
        tank_mean: window.tank_integral().last()? / duration,
    };
    Some((line, features))
}

/// Air temperature when the tank first rises through `level` within the fitted part; NaN without air or such a rise.
pub(crate) fn air_at_rise(window: &Series, level: f64, line: &LineFeatures) -> f64 {
    match window.first_rise_through(level, f64::NEG_INFINITY) {
        Some(at) if !window.air.is_empty() && (line.start..=line.end).contains(&at) => {
            interpolate(&window.t, &window.air, at)
        }
        _ => f64::NAN,
    }
}
