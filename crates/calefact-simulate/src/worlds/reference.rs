//! The truth of jobs: the same burn, but with the job's water and air, and as much wood as the job takes.
//!
//! The hand and the stove keep their habits: kindling, wood and char left over are the same shares of the charge. A fire that
//! left nothing over would burn the char in no time of its own. The time is that until the after-heat is in the water, which
//! is then as hot as the job wants it.

use crate::error::SimulationError;
use crate::forward::Forward;
use crate::plan::{Air, TrialPlan};
use crate::rig::Rig;
use calefact_analysis::Quantity;
use calefact_data::Channel;
use calefact_physics::fuel::net_as_fired;

/// The jobs as the pipeline of a world states them: the reference job, one within the burns, and one of more and hotter water.
pub(super) const JOBS: &str = r#"
[reference_job]
water = "160 L"
from = "10 degC"
to = "55 degC"
ambient = "10 degC"
fuel_moisture = "16 %"

[[job]]
name = "wash"
water = "154 L"
from = "11 degC"
to = "47 degC"
ambient = "10 degC"

[[job]]
name = "tub"
water = "300 L"
from = "10 degC"
to = "60 degC"
ambient = "5 degC"
fuel_moisture = "16 %"
vessel = { loss_coefficient = "9 W/K", mass = "40 kg", material = "steel" }
"#;

/// A job of a world.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Job {
    /// Water, m3.
    pub(crate) water_m3: f64,
    /// Start, degC.
    pub(crate) from: f64,
    /// End, degC.
    pub(crate) to: f64,
    /// Air, degC.
    pub(crate) air: f64,
    /// Moisture of the wood; that of the burn where none is stated.
    moisture: Option<f64>,
    /// Loss coefficient, W/K, and heat capacity, J/K, of a vessel of its own.
    vessel: Option<(f64, f64)>,
}

const REFERENCE: Job = Job { water_m3: 0.160, from: 10.0, to: 55.0, air: 10.0, moisture: Some(0.16), vessel: None };
pub(crate) const WASH: Job = Job { water_m3: 0.154, from: 11.0, to: 47.0, air: 10.0, moisture: None, vessel: None };
const TUB: Job =
    Job { water_m3: 0.300, from: 10.0, to: 60.0, air: 5.0, moisture: Some(0.16), vessel: Some((9.0, 40.0 * STEEL)) };
/// Specific heat of steel near room temperature, J/(kg K); Incropera & DeWitt, appendix A.1, from memory.
const STEEL: f64 = 434.0;

/// Charges the search begins with, kg.
const CHARGES: [f64; 2] = [4.0, 6.0];
/// Rounds of the search; the end temperature is nearly straight in the charge, and is met within a thousandth of a kelvin.
const ROUNDS: usize = 4;

/// A job done with the fire of a burn.
struct Done {
    time_s: f64,
    /// Wood burnt, kindling included, kg.
    burnt: f64,
    /// Wood of the energy that was burnt and not left as char, kg.
    credited: f64,
}

/// Time and credited fuel of the reference job.
pub(super) fn reference(rig: &Rig<'_>, plan: &TrialPlan) -> Result<[(Quantity, f64); 2], SimulationError> {
    let done = done(rig, plan, &REFERENCE)?;
    Ok([(Quantity::ReferenceTime, done.time_s), (Quantity::ReferenceFuel, done.credited)])
}

/// Time (s) and wood (kg) of the other jobs, by the name of the job and of the quantity.
pub(crate) fn jobs(rig: &Rig<'_>, plan: &TrialPlan) -> Result<[(&'static str, f64); 4], SimulationError> {
    let [wash, tub] = [done(rig, plan, &WASH)?, done(rig, plan, &TUB)?];
    Ok([("wash_time", wash.time_s), ("wash_wood", wash.burnt), ("tub_time", tub.time_s), ("tub_wood", tub.burnt)])
}

/// The burn that does the job: charges by the secant method.
fn done(rig: &Rig<'_>, plan: &TrialPlan, job: &Job) -> Result<Done, SimulationError> {
    let (mut rig, mut scenario) = (rig.clone(), rig.scenario.clone());
    if let Some((loss, capacity)) = job.vessel {
        scenario.vessel.loss_coefficient = loss;
        rig.heat_capacity = capacity;
    }
    rig.scenario = &scenario;
    let [mut before, mut charge] = CHARGES;
    let mut off_before = burn(&rig, plan, job, before)?.0;
    let (mut off, mut found) = burn(&rig, plan, job, charge)?;
    for _ in 0..ROUNDS {
        if (off - off_before).abs() < f64::EPSILON {
            break;
        }
        let next = charge - off * (charge - before) / (off - off_before);
        (before, off_before, charge) = (charge, off, next);
        (off, found) = burn(&rig, plan, job, charge)?;
    }
    Ok(found)
}

/// How far a charge ends off the job's temperature, K, and what it takes.
fn burn(rig: &Rig<'_>, plan: &TrialPlan, job: &Job, charge: f64) -> Result<(f64, Done), SimulationError> {
    let plan = with_charge(plan, job, charge);
    let forward = Forward::new(rig, &plan)?;
    let (energy, burnt) = forward.burn.as_ref().map_or((f64::NAN, f64::NAN), |b| (b.energy, b.plan.burnt()));
    let moisture = plan.burn.as_ref().map_or(f64::NAN, |fire| fire.moisture);
    let calorific = plan.burn.as_ref().map_or(f64::NAN, |fire| rig.calorific[fire.fuel]);
    let credited = energy / net_as_fired(calorific, moisture);
    Ok((forward.ends()[1] - job.to, Done { time_s: forward.course.end_s(), burnt, credited }))
}

/// The plan of the job with a charge and the burn's own shares of kindling and leftovers.
fn with_charge(plan: &TrialPlan, job: &Job, charge: f64) -> TrialPlan {
    let air = Air { start: job.air, drift: 0.0 };
    let mut plan = TrialPlan { water_m3: job.water_m3, start: job.from, air, ..plan.clone() };
    plan.logging.channels = vec![Channel::Tank];
    if let Some(fire) = &mut plan.burn {
        let share = charge / fire.fuel_mass;
        fire.fuel_mass = charge;
        fire.kindling *= share;
        fire.leftover_fuel *= share;
        fire.leftover_char *= share;
        fire.moisture = job.moisture.unwrap_or(fire.moisture);
        if let Some(refuel) = &mut fire.refuel {
            refuel.mass *= share;
        }
    }
    plan
}
