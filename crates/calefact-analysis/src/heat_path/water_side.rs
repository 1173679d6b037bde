//! The water side of the exchanger: heat flow into tank and coil, flow, temperatures.

use super::model::PathModel;
use super::slots::PathSlot as P;
use crate::reduce::model::get;
use crate::reduce::slots::Slot;
use calefact_physics::water;

/// Water-side numbers of the steady part for one set of inputs; NaN where not known.
#[derive(Debug, Clone, Copy)]
pub(super) struct WaterSide {
    /// Heat flow into the tank: storage plus standing loss, W.
    pub(super) tank_power: f64,
    /// Heat flow from flow and rise, W.
    pub(super) measured_power: f64,
    /// The one taken as coil power, W: measured where flow is, else the tank's.
    pub(super) power: f64,
    /// Water flow, kg/s.
    pub(super) flow: f64,
    /// Water into the coil, degC.
    pub(super) inlet: f64,
    /// Rise of the water in the coil, K; NaN where neither outlet nor flow is known.
    pub(super) rise: f64,
}

impl WaterSide {
    pub(super) fn new(model: &PathModel, x: &[f64]) -> Self {
        let tank_power = tank_power(model, x);
        let (inlet, outlet, flow) = (P::CoilIn.get(x), P::CoilOut.get(x), P::Flow.get(x));
        let lift = water::enthalpy(outlet) - water::enthalpy(inlet);
        let measured_power = flow * lift;
        let power = if measured_power.is_finite() { measured_power } else { tank_power };
        let inferred = if model.rise_tells { tank_power / lift } else { f64::NAN };
        let rise = if outlet.is_finite() { outlet - inlet } else { power / flow / water::heat_capacity(inlet) };
        Self { tank_power, measured_power, power, flow: if flow.is_finite() { flow } else { inferred }, inlet, rise }
    }
}

/// (m h' + C_v T') + UA (T - T_a) over the steady part, W, over the rig's ratio where that is used.
fn tank_power(model: &PathModel, x: &[f64]) -> f64 {
    let Some(s) = &model.steady else { return f64::NAN };
    let f = &model.base.features;
    let filled = f.fill_c + model.base.tank_error(x, |probe| probe.fill);
    let water_kg = get(x, Slot::Water) * if f.water_is_mass { 1.0 } else { water::density(filled) };
    let storing = (water_kg * s.enthalpy_slope + get(x, Slot::VesselCapacity) * s.tank_slope)
        * model.base.tank_stretch(x, |probe| probe.near(s.tank_mean));
    let excess =
        s.tank_mean + model.base.tank_error(x, |probe| probe.near(s.tank_mean)) - s.air_mean - get(x, Slot::Air);
    let rig = if model.base.correct_rig { get(x, Slot::Rig) } else { 1.0 };
    (storing + get(x, Slot::LossCoefficient) * excess + P::SteadyNoise.get(x)) / rig
}
