//! The truth of the reference job: the same burn, but with the job's water, air and wood, and as much wood as the job takes.

use crate::error::SimulationError;
use crate::forward::Forward;
use crate::plan::{Air, TrialPlan};
use crate::rig::Rig;
use calefact_analysis::Quantity;
use calefact_data::Channel;

/// The job as the pipeline of a world states it.
pub(super) const JOB: &str = r#"
[reference_job]
water = "160 L"
from = "10 degC"
to = "55 degC"
ambient = "10 degC"
fuel_moisture = "16 %"
"#;
const FROM: f64 = 10.0;
const TO: f64 = 55.0;
/// Charges the search begins with, kg.
const CHARGES: [f64; 2] = [4.0, 6.0];
/// Rounds of the search; the end temperature is nearly straight in the charge, and is met within a thousandth of a kelvin.
const ROUNDS: usize = 3;

/// Time until the log ends, s, and wood burnt, kg, of the burn that does the job: charges by the secant method.
pub(super) fn reference(rig: &Rig<'_>, plan: &TrialPlan) -> Result<[(Quantity, f64); 2], SimulationError> {
    let ends = |charge: f64| -> Result<(f64, f64), SimulationError> {
        let job = job(plan, charge);
        let forward = Forward::new(rig, &job)?;
        Ok((forward.ends()[1] - TO, forward.course.end_s()))
    };
    let [mut before, mut charge] = CHARGES;
    let mut off_before = ends(before)?.0;
    let (mut off, mut time) = ends(charge)?;
    for _ in 0..ROUNDS {
        if (off - off_before).abs() < f64::EPSILON {
            break;
        }
        let next = charge - off * (charge - before) / (off - off_before);
        (before, off_before, charge) = (charge, off, next);
        (off, time) = ends(charge)?;
    }
    Ok([(Quantity::ReferenceTime, time), (Quantity::ReferenceFuel, charge)])
}

/// The plan of the job with a charge, nothing of which is left over.
fn job(plan: &TrialPlan, charge: f64) -> TrialPlan {
    let mut job = TrialPlan { water_m3: 0.160, start: FROM, air: Air { start: FROM, drift: 0.0 }, ..plan.clone() };
    job.logging.channels = vec![Channel::Tank];
    if let Some(fire) = &mut job.burn {
        (fire.fuel_mass, fire.moisture) = (charge, 0.16);
        (fire.kindling, fire.leftover_fuel, fire.leftover_char) = (0.0, 0.0, 0.0);
    }
    job
}
