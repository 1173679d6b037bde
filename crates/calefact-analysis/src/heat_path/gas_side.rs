//! The gas side: air ratio, gas flow, heat given up over the exchanger and left after it.

use super::model::PathModel;
use super::slots::PathSlot as P;
use super::water_side::WaterSide;
use crate::reduce::model::{FuelUse, get};
use crate::reduce::slots::Slot;
use calefact_physics::casing::casing_loss;
use calefact_physics::combustion::{FlueGas, air_ratio_from_co2, air_ratio_from_o2, flue_gas, stoichiometry};
use calefact_physics::flue::{CO_HEAT, LATENT_HEAT, air_ratio_from_coil, sensible_heat};
use calefact_physics::fuel;

/// Air ratio at and below which the heat contradicts fuel and probes; between it and 1 an error of measurement explains it
/// (common practice, no source).
const LEAST_AIR_RATIO: f64 = 0.5;

/// Gas-side numbers for one set of inputs; NaN where not known.
#[derive(Debug, Clone, Copy)]
pub(super) struct GasSide {
    /// Gas before the exchanger less gas after it, K.
    pub(super) drop: f64,
    /// Air ratio.
    pub(super) air_ratio: f64,
    /// Wet gas flow, kg/s.
    pub(super) flow: f64,
    /// Heat given up by analysis and burn rate, W; NaN where the gas was not analysed.
    pub(super) power: f64,
    /// Casing loss, W; NaN where not known.
    pub(super) casing: f64,
    /// Sensible heat left after the exchanger over the whole burn, J.
    pub(super) sensible: f64,
    /// Unburnt CO over the whole burn, J; NaN where CO was not measured.
    pub(super) co: f64,
    /// Latent heat of the vapour over the whole burn, J.
    pub(super) latent: f64,
}

/// What burns: wood equivalent of the net energy released, kg, and its rate in the steady part, kg/s.
#[derive(Debug, Clone, Copy)]
struct Burning {
    wood: f64,
    rate: f64,
}

impl Burning {
    /// Burn rate goes with the heat: wood times heat flow into the tank over heat delivered in the whole trial.
    fn new(x: &[f64], fuel: &FuelUse, tank_power: f64, delivered: f64) -> Self {
        let wood = fuel.net_credited() / fuel::net_as_fired(get(x, Slot::NetDry), get(x, Slot::Moisture));
        Self { wood, rate: wood * tank_power / delivered * P::BurnShare.get(x) }
    }
}

impl GasSide {
    pub(super) fn new(model: &PathModel, x: &[f64], water: &WaterSide, fuel: &FuelUse, delivered: f64) -> Self {
        let (before, after) = (P::FlueBefore.get(x), P::FlueAfter.get(x));
        let drop = if model.drop_tells { before - after } else { f64::NAN };
        let casing = casing_power(model, x);
        let given = water.power + if casing.is_finite() { casing } else { 0.0 };
        let mut side = Self {
            drop,
            air_ratio: f64::NAN,
            flow: f64::NAN,
            power: f64::NAN,
            casing,
            sensible: f64::NAN,
            co: f64::NAN,
            latent: f64::NAN,
        };
        let burning = Burning::new(x, fuel, water.tank_power, delivered);
        if let Some((ratio, gas)) = Self::gas(model, x, given, burning.rate) {
            side.fill(model, x, (ratio, &gas), given, burning);
            let share = given / water.power;
            side.losses(model, x, &gas, burning, delivered * share);
        }
        side
    }

    /// Air ratio and gas per kg of fuel: from the analysis, else from the heat the coil took.
    fn gas(model: &PathModel, x: &[f64], given: f64, rate: f64) -> Option<(f64, FlueGas)> {
        let fuel = stoichiometry(model.composition.as_ref()?, get(x, Slot::Moisture)).ok()?;
        let co = P::CarbonMonoxide.get(x);
        let co = if co.is_finite() { co.max(0.0) } else { 0.0 };
        let (o2, co2) = (P::Oxygen.get(x), P::CarbonDioxide.get(x));
        let ratio = if o2.is_finite() {
            air_ratio_from_o2(&fuel, o2, co).ok()?
        } else if co2.is_finite() {
            air_ratio_from_co2(&fuel, co2, co).ok()?
        } else if model.drop_tells {
            let ratio = air_ratio_from_coil(&fuel, rate, given, P::FlueBefore.get(x), P::FlueAfter.get(x)).ok()?;
            Some(ratio).filter(|ratio| *ratio > LEAST_AIR_RATIO)?
        } else {
            return None;
        };
        // An air ratio somewhat below 1 is an error of measurement: the gas is then that of exactly enough air.
        Some((ratio, flue_gas(&fuel, ratio.max(1.0), co).ok()?))
    }

    /// Gas flow from the burn rate; where that is not known, from the heat given up and the fall.
    fn fill(&mut self, model: &PathModel, x: &[f64], gas: (f64, &FlueGas), given: f64, burning: Burning) {
        let (ratio, gas) = gas;
        let fall = sensible_heat(gas, P::FlueAfter.get(x), P::FlueBefore.get(x));
        self.air_ratio = ratio;
        self.flow = if burning.rate.is_finite() {
            burning.rate * gas.mass
        } else if model.drop_tells {
            given / fall * gas.mass
        } else {
            f64::NAN
        };
        if model.analysed() && model.drop_tells {
            self.power = burning.rate * fall;
        }
    }

    /// Losses of the whole burn. With an analysis, per kg of wood; without, per joule the exchanger took, in which
    /// the burn rate cancels.
    fn losses(&mut self, model: &PathModel, x: &[f64], gas: &FlueGas, burning: Burning, taken: f64) {
        let Some(steady) = &model.steady else { return };
        let (before, after) = (P::FlueBefore.get(x), P::FlueAfter.get(x));
        let left = sensible_heat(gas, steady.air_mean + get(x, Slot::Air), after);
        let steady_loss =
            if model.analysed() { burning.wood * left } else { taken * left / sensible_heat(gas, after, before) };
        self.sensible = steady_loss * P::Whole.get(x);
        self.latent = burning.wood * gas.h2o * LATENT_HEAT;
        if P::CarbonMonoxide.get(x).is_finite() {
            self.co = burning.wood * gas.co * CO_HEAT;
        }
    }
}

/// Loss of the casing by natural convection and radiation, W.
fn casing_power(model: &PathModel, x: &[f64]) -> f64 {
    let (Some(surface), Some(steady)) = (&model.casing, &model.steady) else { return f64::NAN };
    let room = steady.air_mean + get(x, Slot::Air);
    casing_loss(surface, P::Casing.get(x), room, model.pressure)
        .map_or(f64::NAN, |loss| loss.total() * P::CasingFactor.get(x))
}
