//! The gas side: flue temperatures, gas flow, effectiveness and oxygen that go with the heat the water takes.

use super::burn::Burn;
use super::gas::Gas;
use super::plan::Air;
use super::tank::Course;
use calefact_physics::exchanger::{Arrangement, Stream, effectiveness};

/// Specific heat of water to the accuracy a capacity ratio needs, J/(kg K).
const WATER: f64 = 4186.0;
/// The fire's share below which there is no air ratio to speak of.
const NO_FIRE: f64 = 0.01;
/// Rounds of substitution at most, and the relative change of the capacity flow that ends it.
const ROUNDS: usize = 30;
const CLOSE: f64 = 1e-8;

/// Gas-side series, one value a step of the course.
#[derive(Debug, Clone, Default)]
pub(super) struct Flue {
    /// Gas before the exchanger, degC.
    pub(super) before: Vec<f64>,
    /// Gas after it, degC.
    pub(super) after: Vec<f64>,
    /// Oxygen of the dry gas, volume fraction.
    pub(super) oxygen: Vec<f64>,
    /// Wet gas flow, kg/s.
    pub(super) gas_flow: Vec<f64>,
    /// Air ratio.
    pub(super) air_ratio: Vec<f64>,
    /// Effectiveness.
    pub(super) effectiveness: Vec<f64>,
    /// Conductance, W/K.
    pub(super) conductance: Vec<f64>,
    /// Sensible heat of the gas after the exchanger above the air, J, summed over the log.
    pub(super) loss: f64,
}

/// One moment of the gas side.
struct Moment {
    burning: f64,
    air_ratio: f64,
    heat: f64,
    inlet: f64,
}

impl Flue {
    /// Solves the gas side of a course. Heat is what the water takes; gas flow follows the fire through the same lag. Char that
    /// stays behind makes no gas: gas goes with the energy released, as oxygen use does (Thornton's rule).
    pub(crate) fn new(burn: &Burn, course: &Course, air: &Air) -> Option<Self> {
        let gas = Gas::new(&burn.fuel.entry, burn.plan.moisture)?;
        let arrangement = burn.exchanger.entry.arrangement.unwrap_or(Arrangement::Counter);
        let mut flue = Self::default();
        let gasified = burn.rate * burn.gasified();
        let mut capacity = 1.1e3 * gasified * gas.mass(burn.air_ratio);
        for (i, (&u, &inlet)) in course.lagged.iter().zip(&course.tank).enumerate() {
            let fire = u.max(NO_FIRE);
            let draught = (1.0 - burn.stove.leak).mul_add(fire, burn.stove.leak);
            let moment = Moment {
                burning: gasified * fire,
                air_ratio: burn.air_ratio * draught / fire,
                heat: course.scale * u,
                inlet,
            };
            capacity = flue.solve(burn, arrangement, &gas, &moment, capacity)?;
            let after = flue.after[i];
            let ambient = air.at(i as f64 * course.step_s);
            let heat = gas.enthalpy(after, moment.air_ratio) - gas.enthalpy(ambient, moment.air_ratio);
            // Trapezoidal rule over the log.
            let weight = if i == 0 || i + 1 == course.tank.len() { 0.5 } else { 1.0 };
            flue.loss += weight * moment.burning * heat * course.step_s;
        }
        Some(flue)
    }

    /// Finds the gas temperatures of a moment by substitution on the gas's heat capacity flow, which is returned.
    fn solve(
        &mut self,
        burn: &Burn,
        arrangement: Arrangement,
        gas: &Gas,
        now: &Moment,
        mut capacity: f64,
    ) -> Option<f64> {
        let flow = now.burning * gas.mass(now.air_ratio);
        let conductance = burn.fouling * burn.exchanger.conductance_at(flow);
        let heat_of = |celsius: f64| now.burning * gas.enthalpy(celsius, now.air_ratio);
        let water = burn.exchanger.coil_flow * WATER;
        let (mut before, mut after, mut share) = (now.inlet, now.inlet, 0.0);
        for _ in 0..ROUNDS {
            share = effectiveness(conductance / capacity, capacity / water, arrangement, Stream::Gas).ok()?;
            after = now.inlet + now.heat / capacity * (1.0 / share - 1.0);
            before = after + now.heat / capacity;
            let fall = before - after;
            let next = if fall > 1e-3 { (heat_of(before) - heat_of(after)) / fall } else { capacity };
            let change = (next / capacity - 1.0).abs();
            capacity = next;
            if change < CLOSE {
                break;
            }
        }
        self.push(gas, now, [before, after, flow, share, conductance]);
        Some(capacity)
    }

    fn push(&mut self, gas: &Gas, now: &Moment, [before, after, flow, effectiveness, conductance]: [f64; 5]) {
        self.before.push(before);
        self.after.push(after);
        self.oxygen.push(gas.oxygen(now.air_ratio));
        self.gas_flow.push(flow);
        self.air_ratio.push(now.air_ratio);
        self.effectiveness.push(effectiveness);
        self.conductance.push(conductance);
    }
}
