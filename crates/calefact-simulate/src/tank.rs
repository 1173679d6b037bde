//! The vessel's heat balance, solved by enthalpy: `dH/dt = Q(t) - UA (T - Ta(t))`.

use super::fire::Fire;
use super::plan::Air;
use super::water;

/// Longest step of the solution, s.
const LONGEST_STEP: f64 = 30.0;

/// Water and vessel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tank {
    /// Water, kg.
    pub(super) mass: f64,
    /// Heat capacity of the vessel, J/K.
    pub(super) heat_capacity: f64,
    /// Loss coefficient, W/K.
    pub(super) loss: f64,
}

/// Heat flow into the vessel: a fire seen through the lag of hot metal, to a stated scale.
#[derive(Debug, Clone)]
pub(super) struct Source {
    pub(super) fire: Fire,
    /// Time constant of the metal, s.
    pub(super) lag_s: f64,
}

/// Steps of the solution; index `i` is time `i * step_s`.
#[derive(Debug, Clone, Default)]
pub(super) struct Course {
    pub(super) step_s: f64,
    /// Steps between two rows of the log.
    pub(super) per_row: usize,
    /// Lagged fire, share of the steady rate.
    pub(super) lagged: Vec<f64>,
    /// Heat into the vessel per unit of scale during the step that begins here, s.
    pub(super) given: Vec<f64>,
    /// Tank temperature, degC.
    pub(super) tank: Vec<f64>,
    /// Heat lost to the air, J.
    pub(super) lost: f64,
    /// Heat delivered, J.
    pub(super) delivered: f64,
    /// Heat flow at full steady rate, W.
    pub(super) scale: f64,
}

impl Course {
    /// The lagged fire on a grid of rows, exact for a fire that is constant within a step.
    pub(super) fn new(source: &Source, interval_s: f64, rows: usize) -> Self {
        let per_row = (interval_s / LONGEST_STEP).ceil().max(1.0) as usize;
        let step_s = interval_s / per_row as f64;
        let steps = per_row * (rows - 1);
        let keep = if source.lag_s > 0.0 { libm::exp(-step_s / source.lag_s) } else { 0.0 };
        let mut course = Self { step_s, per_row, ..Self::default() };
        let mut u = if source.lag_s > 0.0 { 0.0 } else { source.fire.rate(0.0) };
        for i in 0..steps {
            let fire = source.fire.rate((i as f64 + 0.5) * step_s);
            course.lagged.push(u);
            course.given.push((u - fire).mul_add(source.lag_s * (1.0 - keep), fire * step_s));
            u = (u - fire).mul_add(keep, fire);
        }
        course.lagged.push(u);
        course
    }

    /// Seconds' worth of the full steady rate that reach the vessel before the log ends.
    pub(super) fn given_s(&self) -> f64 {
        self.given.iter().sum()
    }

    /// Fills in the tank temperatures: implicit midpoint rule for the loss, exact enthalpy for the rise.
    pub(super) fn heat(&mut self, tank: &Tank, scale: f64, start: f64, air: &Air) {
        self.scale = scale;
        let (mut t, mut h) = (start, water::enthalpy_and_slope(start));
        self.tank = Vec::with_capacity(self.lagged.len());
        self.tank.push(t);
        for (i, given) in self.given.iter().enumerate() {
            let capacity = tank.mass.mul_add(h.1, tank.heat_capacity);
            let heat = scale * given;
            let over = t - air.at((i as f64 + 0.5) * self.step_s);
            let half = tank.loss * self.step_s / 2.0 / capacity;
            let lost = tank.loss * self.step_s * (over + heat / 2.0 / capacity) / (1.0 + half);
            let gain = heat - lost;
            let target = tank.mass.mul_add(h.0, tank.heat_capacity * t) + gain;
            t += gain / capacity;
            h = water::enthalpy_and_slope(t);
            t -= (tank.mass.mul_add(h.0, tank.heat_capacity * t) - target) / tank.mass.mul_add(h.1, tank.heat_capacity);
            h = water::enthalpy_and_slope(t);
            self.lost += lost;
            self.delivered += heat;
            self.tank.push(t);
        }
    }

    /// Value of a series at a time, linear between steps.
    pub(super) fn at(&self, series: &[f64], t: f64) -> f64 {
        let position = (t / self.step_s).clamp(0.0, (series.len() - 1) as f64);
        let i = (position as usize).min(series.len().saturating_sub(2));
        let (a, b) = (series[i], series.get(i + 1).copied().unwrap_or(series[i]));
        (position - i as f64).mul_add(b - a, a)
    }

    /// Last time of the log, s.
    pub(super) fn end_s(&self) -> f64 {
        (self.lagged.len() - 1) as f64 * self.step_s
    }
}
