//! From a plan to a trial: its register row, its readings, its truth.

use super::burn::Burn;
use super::fire::Fire;
use super::flue::Flue;
use super::observe::{displayed, register_row};
use super::plan::TrialPlan;
use super::rig::Rig;
use super::scenario::Scenario;
use super::tank::{Course, Source, Tank};
use super::truth::truth;
use super::{SimulationError, water};
use calefact_analysis::Quantity;
use calefact_data::readings::Remark;
use calefact_data::{Channel, Readings, RegisterRow, TrialKind};
use std::collections::BTreeMap;

/// Time constant of an electric heater in the water, s.
const HEATER_LAG: f64 = 20.0;
/// Share of the way from the air to the hot gas at which the casing stands.
const CASING: f64 = 0.07;
/// After-heat is followed for so many time constants after the fire is out.
const AFTER_HEAT: f64 = 5.0;

/// An invented trial.
#[derive(Debug, Clone, PartialEq)]
pub struct SimulatedTrial {
    /// Register row as the instruments show it, SI.
    pub row: RegisterRow,
    /// Readings as the instruments show them, SI.
    pub readings: Readings,
    /// Readings of instruments without error.
    pub exact: Readings,
    /// True quantities over the whole log, in [`Quantity::unit`].
    pub truth: BTreeMap<Quantity, f64>,
    /// Balance of the vessel: stored, lost and delivered heat, J.
    pub balance: [f64; 3],
}

/// What the forward model knows of a trial before anyone has read an instrument.
pub(super) struct Forward<'a> {
    pub(super) plan: &'a TrialPlan,
    pub(super) burn: Option<Burn<'a>>,
    pub(super) tank: Tank,
    pub(super) source: Source,
    pub(super) course: Course,
    pub(super) flue: Option<Flue>,
}

/// Makes the trial of a plan in the world of a scenario and a seed.
///
/// # Errors
/// A plan that names no apparatus, boils the tank, or takes more heat than the fuel has.
pub fn simulate_trial(scenario: &Scenario, plan: &TrialPlan, seed: u64) -> Result<SimulatedTrial, SimulationError> {
    Rig::draw(scenario, seed).trial(plan)
}

impl Rig<'_> {
    /// Makes the trial of a plan. The errors of the instruments are this rig's own, the same in every trial.
    ///
    /// # Errors
    /// As [`simulate_trial`].
    pub fn trial(&self, plan: &TrialPlan) -> Result<SimulatedTrial, SimulationError> {
        let forward = self.forward(plan)?;
        let exact = forward.readings();
        let truth = truth(self, &forward)?;
        let stored = forward.stored();
        Ok(SimulatedTrial {
            row: register_row(self, &forward),
            readings: displayed(self, plan, &exact),
            truth,
            balance: [stored, forward.course.lost, forward.course.delivered],
            exact,
        })
    }

    /// The truth of a plan alone, without readings.
    ///
    /// # Errors
    /// As [`simulate_trial`].
    pub fn truth(&self, plan: &TrialPlan) -> Result<BTreeMap<Quantity, f64>, SimulationError> {
        truth(self, &self.forward(plan)?)
    }

    fn forward<'a>(&'a self, plan: &'a TrialPlan) -> Result<Forward<'a>, SimulationError> {
        let empty = |what| SimulationError::Empty { trial: plan.trial.clone(), what };
        if plan.logging.rows < 2 {
            return Err(empty("a log has two rows at least"));
        }
        let burn = match &plan.burn {
            Some(fire) if fire.burnt() > 0.0 => Some(Burn::draw(self, plan, fire)?),
            Some(_) => return Err(empty("no wood is burnt")),
            None => None,
        };
        let tank = Tank {
            mass: plan.water_m3 * super::water_density(plan.start),
            heat_capacity: self.heat_capacity,
            loss: self.scenario.vessel.loss_coefficient,
        };
        let (source, length) = source(plan, burn.as_ref());
        let mut course = Course::of(&source, interval(length, &plan.logging), plan.logging.rows);
        let scale = match (&burn, plan.kind) {
            (Some(burn), _) => burn.efficiency * burn.energy / course.given_s(),
            (None, TrialKind::ReferenceHeater) => plan.heater_power,
            (None, _) => 0.0,
        };
        course.heat(&tank, scale, plan.start, &plan.air);
        within_water(plan, &course)?;
        let flue = burn.as_ref().filter(|_| plan.logging.wants_flue()).and_then(|b| Flue::of(b, &course, &plan.air));
        Ok(Forward { plan, burn, tank, source, course, flue })
    }
}

/// The heat source of a plan and the time it takes, s.
fn source(plan: &TrialPlan, burn: Option<&Burn>) -> (Source, f64) {
    if let Some(burn) = burn {
        let lag_s = burn.exchanger.lag_s;
        return (Source { fire: burn.fire, lag_s }, AFTER_HEAT.mul_add(lag_s, burn.fire.out_s()));
    }
    let lag_s = if plan.kind == TrialKind::ReferenceHeater { HEATER_LAG } else { 0.0 };
    (Source { fire: Fire::constant(2.0 * plan.duration_s), lag_s }, plan.duration_s)
}

/// Interval between rows, s: the least multiple of the logger's step that covers the trial.
fn interval(length: f64, logging: &super::Logging) -> f64 {
    let exact = length / (logging.rows - 1) as f64;
    if logging.step_s > 0.0 { (exact / logging.step_s).ceil() * logging.step_s } else { exact }
}

fn within_water(plan: &TrialPlan, course: &Course) -> Result<(), SimulationError> {
    let odd = course.tank.iter().copied().find(|t| !(0.5..99.0).contains(t));
    odd.map_or(Ok(()), |tank| Err(SimulationError::OutOfWater { trial: plan.trial.clone(), tank }))
}

impl Forward<'_> {
    /// Heat stored in water and vessel over the log, J, from the enthalpy of water itself.
    pub(super) fn stored(&self) -> f64 {
        let [first, last] = self.ends();
        let rise = super::water_enthalpy(last) - super::water_enthalpy(first);
        self.tank.mass.mul_add(rise, self.tank.heat_capacity * (last - first))
    }

    /// First and last tank temperature, degC.
    pub(super) fn ends(&self) -> [f64; 2] {
        let tank = &self.course.tank;
        [tank[0], tank[tank.len() - 1]]
    }

    /// Heat flow into the vessel at a time, W.
    pub(super) fn heat_flow(&self, t: f64) -> f64 {
        self.course.scale * self.course.at(&self.course.lagged, t)
    }

    /// Exact readings of the channels the plan asks for.
    fn readings(&self) -> Readings {
        let rows = self.plan.logging.rows;
        let step = self.course.step_s * self.course.per_row as f64;
        let elapsed_s: Vec<f64> = (0..rows).map(|i| i as f64 * step).collect();
        let wanted = self.plan.logging.channels.iter();
        let channels = wanted.filter_map(|&c| Some((c, self.column(c, &elapsed_s)?))).collect();
        let flags = vec![0; rows];
        Readings { elapsed_s, channels, flags, events: self.events(step, rows), notes: Vec::new() }
    }

    fn column(&self, channel: Channel, times: &[f64]) -> Option<Vec<f64>> {
        let every = |series: &[f64]| series.iter().step_by(self.course.per_row).copied().collect::<Vec<_>>();
        Some(match channel {
            Channel::Tank | Channel::CoilIn => every(&self.course.tank),
            Channel::Ambient => times.iter().map(|&t| self.plan.air.at(t)).collect(),
            Channel::Power => vec![self.plan.heater_power; times.len()],
            Channel::Flow => vec![self.burn.as_ref()?.exchanger.coil_flow; times.len()],
            Channel::CoilOut => self.coil_out(self.burn.as_ref()?.exchanger.coil_flow, times),
            Channel::FuelAdded => self.fuel_added(times)?,
            Channel::FlueBefore => every(&self.flue.as_ref()?.before),
            Channel::FlueAfter => every(&self.flue.as_ref()?.after),
            Channel::FlueO2 => every(&self.flue.as_ref()?.oxygen),
            Channel::Casing => self.casing(&every(&self.flue.as_ref()?.before), times),
            Channel::FlueCo2 | Channel::FlueCo => return None,
        })
    }

    /// Water out of the coil: what comes in, plus the heat flow over the water flow.
    fn coil_out(&self, flow: f64, times: &[f64]) -> Vec<f64> {
        let out = |(i, &time): (usize, &f64)| {
            let inlet = self.course.tank[i * self.course.per_row];
            water::temperature(water::enthalpy(inlet) + self.heat_flow(time) / flow, inlet)
        };
        times.iter().enumerate().map(out).collect()
    }

    /// Outer surface of the casing: a fixed share of the way from the air to the hot gas.
    fn casing(&self, before: &[f64], times: &[f64]) -> Vec<f64> {
        let surface = |(&hot, &t): (&f64, &f64)| {
            let air = self.plan.air.at(t);
            CASING.mul_add((hot - air).max(0.0), air)
        };
        before.iter().zip(times).map(surface).collect()
    }

    fn fuel_added(&self, times: &[f64]) -> Option<Vec<f64>> {
        let burn = self.burn.as_ref()?;
        let at = burn.fire.refuel_s?;
        let row = times.partition_point(|&t| t < at);
        Some(
            (0..times.len())
                .map(|i| if i == row { burn.plan.refuel.map_or(0.0, |r| r.mass) } else { f64::NAN })
                .collect(),
        )
    }

    fn events(&self, step: f64, rows: usize) -> Vec<Remark> {
        let Some(burn) = &self.burn else { return Vec::new() };
        let row = |t: f64| ((t / step).ceil() as usize).min(rows - 1);
        let mut events = vec![Remark { row: 0, text: "lit".into() }];
        events.extend(burn.fire.refuel_s.map(|t| Remark { row: row(t), text: "refuel".into() }));
        events.push(Remark { row: row(burn.fire.out_s()), text: "fire out".into() });
        events
    }
}
