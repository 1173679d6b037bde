//! The error of the tank's thermometer at the temperatures that a trial's model asks for: worked out once, since a Monte Carlo
//! run asks with every draw.

use super::features::Features;
use super::slots::Slot;
use crate::thermometer::{ErrorNear, Thermometer};

/// The thermometer in the tank at the temperatures of a trial.
#[derive(Debug, Clone)]
pub(crate) struct TankProbe<'a> {
    thermometer: &'a Thermometer,
    pub(crate) fill: ErrorNear,
    pub(super) start: ErrorNear,
    pub(super) end: ErrorNear,
    pub(super) mean: ErrorNear,
    pub(super) rate: ErrorNear,
    pub(super) steady: ErrorNear,
    pub(super) cooling: ErrorNear,
}

impl<'a> TankProbe<'a> {
    /// The thermometer at the temperatures of some features; what they lack is never asked for.
    pub(super) fn new(thermometer: &'a Thermometer, f: &Features) -> Self {
        let near = |at: Option<f64>| thermometer.near(at.unwrap_or(f64::NAN));
        Self {
            thermometer,
            fill: near(Some(f.fill_c)),
            start: near(Some(f.start_c)),
            end: near(Some(f.end_c)),
            mean: near(Some(f.tank_integral / f.duration)),
            rate: near(Some(f.rate_at)),
            steady: near(f.steady.as_ref().map(|s| s.tank_mean)),
            cooling: near(f.cooling.as_ref().map(|c| c.tank_mean)),
        }
    }

    /// The thermometer at another temperature, degC.
    pub(crate) fn near(&self, at: f64) -> ErrorNear {
        self.thermometer.near(at)
    }
}

/// The errors of the tank's probe among the inputs.
pub(crate) fn draws(x: &[f64]) -> [f64; 3] {
    [Slot::TankCommon, Slot::TankLow, Slot::TankHigh].map(|slot| x[slot as usize])
}
