//! One burn's own draws: what this fire is, as against the expected one.

use super::error::SimulationError;
use super::fire::Fire;
use super::plan::{BurnPlan, TrialPlan};
use super::rig::Rig;
use super::scenario::{ExchangerModel, FuelModel, Scenario, StoveModel};
use super::stream::{normal, stream};
use calefact_physics::fuel::net_as_fired;

/// A burn as it will be: everything random about it is settled.
#[derive(Debug, Clone)]
pub(super) struct Burn<'a> {
    pub(super) plan: &'a BurnPlan,
    pub(super) stove: &'a StoveModel,
    pub(super) fuel: &'a FuelModel,
    pub(super) exchanger: &'a ExchangerModel,
    /// Thermal efficiency (net, credited).
    pub(super) efficiency: f64,
    /// Steady burn rate, kg/s.
    pub(super) rate: f64,
    /// Steady air ratio.
    pub(super) air_ratio: f64,
    /// This burn's conductance over the expected one (soot, a coil not quite in the middle).
    pub(super) fouling: f64,
    /// Energy of the wood burnt, less that of the leftover char, J.
    pub(super) energy: f64,
    /// The same, nothing credited, J.
    pub(super) energy_uncredited: f64,
    pub(super) fire: Fire,
}

/// Relative standard deviation of an exchanger's conductance between burns.
const FOULING_SD: f64 = 0.03;

impl<'a> Burn<'a> {
    /// Settles a burn.
    pub(super) fn draw(rig: &Rig<'a>, trial: &TrialPlan, plan: &'a BurnPlan) -> Result<Self, SimulationError> {
        let (stove, fuel, exchanger) = rig.scenario.setup(trial, plan)?;
        let mut rng = stream(rig.seed, &format!("trial/{}", trial.trial));
        let mut z = || rig.scenario.scatter * normal(&mut rng);
        let scatter = z() * stove.efficiency_sd;
        let expected = expected_efficiency(rig.scenario, trial, plan, stove, fuel, exchanger);
        let rate = stove.burn_rate * relative(stove.rate_sd, z());
        let net = net_as_fired(rig.calorific[plan.fuel], plan.moisture);
        let char = plan.leftover_char * rig.char_calorific[plan.fuel];
        let refuel = plan.refuel.map(|r| r.at);
        Ok(Self {
            plan,
            stove,
            fuel,
            exchanger,
            efficiency: expected + scatter + rig.day_effect(&trial.block),
            rate,
            air_ratio: stove.air_ratio * relative(stove.rate_sd, z()),
            fouling: relative(FOULING_SD, z()),
            energy: plan.burnt().mul_add(net, -char),
            energy_uncredited: (plan.fuel_mass + plan.kindling) * net,
            fire: Fire::burning(plan.burnt() / rate, stove.ramp_s, stove.down_s, refuel),
        })
    }
}

impl Burn<'_> {
    /// Share of the burnt wood's energy that was released and not left as char.
    pub(super) fn gasified(&self) -> f64 {
        let put_on = self.plan.fuel_mass + self.plan.kindling;
        self.energy / (self.energy_uncredited * self.plan.burnt() / put_on)
    }
}

/// A factor about one that cannot come near nought.
fn relative(sd: f64, z: f64) -> f64 {
    sd.mul_add(z.clamp(-3.0, 3.0), 1.0).max(0.5)
}

/// Efficiency of the expected burn: the stove's own and the sum of what each level adds.
fn expected_efficiency(
    scenario: &Scenario,
    trial: &TrialPlan,
    plan: &BurnPlan,
    stove: &StoveModel,
    fuel: &FuelModel,
    exchanger: &ExchangerModel,
) -> f64 {
    let levels = scenario.effects.iter().filter(|e| trial.extra.get(&e.column).is_some_and(|l| *l == e.level));
    let value = |column: &str| trial.extra.get(column).and_then(|text| text.parse::<f64>().ok());
    let trends = scenario.trends.iter().filter_map(|t| Some(t.slope * (value(&t.column)? - t.centre)));
    let further: f64 = levels.map(|e| e.efficiency).chain(trends).sum();
    stove.efficiency + fuel.efficiency + exchanger.efficiency + plan.efficiency + further
}

impl Scenario {
    /// The apparatus a burn names.
    fn setup(
        &self,
        trial: &TrialPlan,
        plan: &BurnPlan,
    ) -> Result<(&StoveModel, &FuelModel, &ExchangerModel), SimulationError> {
        let none = |what, index| SimulationError::NoSuch { trial: trial.trial.clone(), what, index };
        Ok((
            self.stoves.get(plan.stove).ok_or_else(|| none("stove", plan.stove))?,
            self.fuels.get(plan.fuel).ok_or_else(|| none("fuel", plan.fuel))?,
            self.exchangers.get(plan.exchanger).ok_or_else(|| none("exchanger", plan.exchanger))?,
        ))
    }
}
