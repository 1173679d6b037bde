//! What happens in a trial before anyone reads an instrument: fire, tank and flue.

use super::burn::Burn;
use super::error::SimulationError;
use super::fire::Fire;
use super::flue::Flue;
use super::plan::{Logging, TrialPlan};
use super::rig::Rig;
use super::tank::{Course, Source, Tank};
use calefact_data::TrialKind;
use calefact_physics::water::{density, enthalpy};

/// Time constant of an electric heater in the water, s.
const HEATER_LAG: f64 = 20.0;
/// After-heat is followed for so many time constants after the fire is out.
const AFTER_HEAT: f64 = 5.0;

/// The true course of a trial.
pub(crate) struct Forward<'a> {
    pub(crate) plan: &'a TrialPlan,
    pub(crate) burn: Option<Burn<'a>>,
    pub(crate) tank: Tank,
    pub(crate) source: Source,
    pub(crate) course: Course,
    pub(crate) flue: Option<Flue>,
}

impl<'a> Forward<'a> {
    /// Follows a plan from its start to the end of its log.
    ///
    /// # Errors
    /// A plan that names no apparatus, or boils or freezes the tank.
    pub(crate) fn new(rig: &Rig<'a>, plan: &'a TrialPlan) -> Result<Self, SimulationError> {
        let empty = |what| SimulationError::Empty { trial: plan.trial.clone(), what };
        if plan.logging.rows < 2 {
            return Err(empty("a log has two rows at least"));
        }
        let burn = match &plan.burn {
            Some(fire) if fire.burnt() > 0.0 => Some(Burn::draw(rig, plan, fire)?),
            Some(_) => return Err(empty("no wood is burnt")),
            None => None,
        };
        let tank = Tank {
            mass: plan.water_m3 * density(plan.start),
            heat_capacity: rig.heat_capacity,
            loss: rig.scenario.vessel.loss_coefficient,
        };
        let (source, length) = source(plan, burn.as_ref());
        let mut course = Course::new(&source, interval(length, &plan.logging), plan.logging.rows);
        let scale = match (&burn, plan.kind) {
            (Some(burn), _) => burn.efficiency * burn.energy / course.given_s(),
            (None, TrialKind::ReferenceHeater) => plan.heater_power,
            (None, _) => 0.0,
        };
        course.heat(&tank, scale, plan.start, &plan.air);
        within_water(plan, &course)?;
        let flue = burn.as_ref().filter(|_| plan.logging.wants_flue()).and_then(|b| Flue::new(b, &course, &plan.air));
        Ok(Self { plan, burn, tank, source, course, flue })
    }

    /// Heat stored in water and vessel over the log, J, from the enthalpy of water itself.
    pub(crate) fn stored(&self) -> f64 {
        let [first, last] = self.ends();
        let rise = enthalpy(last) - enthalpy(first);
        self.tank.mass.mul_add(rise, self.tank.heat_capacity * (last - first))
    }

    /// First and last tank temperature, degC.
    pub(crate) fn ends(&self) -> [f64; 2] {
        let tank = &self.course.tank;
        [tank[0], tank[tank.len() - 1]]
    }

    /// Heat flow into the vessel at a time, W.
    pub(crate) fn heat_flow(&self, t: f64) -> f64 {
        self.course.scale * self.course.at(&self.course.lagged, t)
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
fn interval(length: f64, logging: &Logging) -> f64 {
    let exact = length / (logging.rows - 1) as f64;
    if logging.step_s > 0.0 { (exact / logging.step_s).ceil() * logging.step_s } else { exact }
}

fn within_water(plan: &TrialPlan, course: &Course) -> Result<(), SimulationError> {
    let odd = course.tank.iter().copied().find(|t| !(0.5..99.0).contains(t));
    odd.map_or(Ok(()), |tank| Err(SimulationError::OutOfWater { trial: plan.trial.clone(), tank }))
}
