//! The true tank curve: a constant heat flow after a delay, a constant loss coefficient, air that drifts evenly.

use super::shared::VESSEL;
use calefact_physics::water;

/// Volume of water at the start temperature, m3.
pub(crate) const VOLUME: f64 = 0.160;

/// One trial's true course.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Course {
    /// Heat flow once it arrives, W.
    pub(crate) heat: f64,
    /// When it arrives, s.
    pub(crate) delay: f64,
    /// Loss coefficient, W/K.
    pub(crate) loss: f64,
    /// Tank at the start, degC.
    pub(crate) start: f64,
    /// Air at the start, degC, and its drift, K/s.
    pub(crate) air: (f64, f64),
}

impl Course {
    /// Air temperature, degC.
    pub(crate) fn air_at(&self, t: f64) -> f64 {
        self.air.0 + self.air.1 * t
    }

    /// True heat capacity of water and vessel, J/K.
    pub(crate) fn capacity(&self, tank: f64) -> f64 {
        VOLUME * water::density(self.start) * water::heat_capacity(tank) + VESSEL
    }

    /// Tank temperature at rising times from 0 on, degC: the heat balance by Runge and Kutta's fourth-order rule, in
    /// steps of at most `longest` s that never straddle the arrival of heat.
    pub(crate) fn tank(&self, times: &[f64], longest: f64) -> Vec<f64> {
        let (mut at, mut tank) = (0.0, self.start);
        let mut out = Vec::with_capacity(times.len());
        for &t in times {
            if at < self.delay && self.delay < t {
                tank = self.advance(tank, at, self.delay, longest, 0.0);
                at = self.delay;
            }
            let heat = if at >= self.delay { self.heat } else { 0.0 };
            tank = self.advance(tank, at, t, longest, heat);
            at = t;
            out.push(tank);
        }
        out
    }

    fn advance(&self, mut tank: f64, from: f64, to: f64, longest: f64, heat: f64) -> f64 {
        let steps = ((to - from) / longest).ceil();
        let h = (to - from) / steps.max(1.0);
        let slope = |t: f64, tank: f64| (heat - self.loss * (tank - self.air_at(t))) / self.capacity(tank);
        for i in 0..steps as usize {
            let t = from + h * i as f64;
            let a = slope(t, tank);
            let b = slope(t + 0.5 * h, tank + 0.5 * h * a);
            let c = slope(t + 0.5 * h, tank + 0.5 * h * b);
            let d = slope(t + h, tank + h * c);
            tank += h / 6.0 * (a + 2.0 * b + 2.0 * c + d);
        }
        tank
    }

    /// Time at which the true tank first reaches a level, s, to a thousandth; `None` if not before `end`.
    pub(crate) fn reaches(&self, level: f64, end: f64) -> Option<f64> {
        let at = |t: f64| self.tank(&[t], 300.0)[0];
        let (mut low, mut high) = (self.delay, end);
        if at(high) < level {
            return None;
        }
        while high - low > 1e-3 {
            let middle = 0.5 * (low + high);
            if at(middle) < level { low = middle } else { high = middle }
        }
        Some(high)
    }
}
