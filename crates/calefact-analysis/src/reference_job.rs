//! The reference job: the same water, the same temperatures, whatever was burnt on the day.
//!
//! C dT/dt = Q - UA (T - Ta) with constant Q (J. P. Holman, Heat Transfer, lumped capacity; closed form). C is the mean heat
//! capacity of the job's water, by enthalpy, and of the vessel.

use crate::settings::ReferenceJob;
use calefact_physics::water;

/// The vessel the job is done in.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Vessel {
    /// Heat capacity of the vessel itself, J/K.
    pub(crate) capacity: f64,
    /// Loss coefficient, W/K.
    pub(crate) loss: f64,
}

/// Demands of a job, whatever the heat flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Task {
    /// Heat to be stored, J.
    pub(crate) stored: f64,
    /// Tank above the air at the start and at the end, K.
    pub(crate) excess: (f64, f64),
}

impl Task {
    /// That of a reference job.
    pub(crate) fn new(job: &ReferenceJob, vessel: Vessel) -> Self {
        Self::with_water(job, water_heat(job), vessel)
    }

    /// That of a reference job whose [`water_heat`] is known.
    pub(crate) fn with_water(job: &ReferenceJob, water_heat: f64, vessel: Vessel) -> Self {
        let stored = water_heat + vessel.capacity * (job.to - job.from);
        Self { stored, excess: (job.from - job.ambient, job.to - job.ambient) }
    }
}

/// Heat that the water of a job takes, J.
pub(crate) fn water_heat(job: &ReferenceJob) -> f64 {
    job.water_m3 * water::density(job.from) * (water::enthalpy(job.to) - water::enthalpy(job.from))
}

/// Time for which the steady fire must give its heat flow (W), s, where light-up, burn-down and after-heat take `fixed_s`
/// besides: half of that at the start temperature and half at the end, as what the vessel loses meanwhile. NaN if the heat flow
/// cannot hold the end temperature.
pub(crate) fn steady_time(task: &Task, vessel: Vessel, heat_flow: f64, fixed_s: f64) -> f64 {
    time(&with_fixed(task, vessel, fixed_s), vessel, heat_flow)
}

/// The heat flow for which that time is as long as wanted, W: the closed form solved for it. NaN for a task that stores no heat.
pub(crate) fn steady_flow(task: &Task, vessel: Vessel, (fixed_s, steady_s): (f64, f64)) -> f64 {
    let Task { stored, excess: (first, last) } = with_fixed(task, vessel, fixed_s);
    if stored <= 0.0 {
        return f64::NAN;
    }
    // Net flow falls by exp(-x) over the time.
    let x = vessel.loss * (last - first) * steady_s / stored;
    let held = if x.abs() < 1e-6 { 1.0 - 0.5 * x } else { x / libm::expm1(x) };
    vessel.loss * last + stored / steady_s * held
}

/// A task with the loss of the time that is not the steady fire's.
fn with_fixed(task: &Task, vessel: Vessel, fixed_s: f64) -> Task {
    let lost = vessel.loss * fixed_s * 0.5 * (task.excess.0 + task.excess.1);
    Task { stored: task.stored + lost, ..*task }
}

/// Time it takes at a constant heat flow (W), s; NaN if the heat flow cannot hold the end temperature.
fn time(task: &Task, vessel: Vessel, heat_flow: f64) -> f64 {
    let net = |excess: f64| heat_flow - vessel.loss * excess;
    let (first, last) = (net(task.excess.0), net(task.excess.1));
    if first > 0.0 && last > 0.0 { task.stored / log_mean(first, last) } else { f64::NAN }
}

/// Logarithmic mean, the mean net heat flow of an exponential approach.
fn log_mean(a: f64, b: f64) -> f64 {
    let ratio = b / a;
    if (ratio - 1.0).abs() < 1e-6 { 0.5 * (a + b) } else { (b - a) / libm::log(ratio) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closed_form_time() {
        // 200 kg, UA 3 W/K, 6000 W, 15 to 60 degC at 15 degC air: with c = 4186 J/(kg K) the closed form gives 6350.7165 s
        // (hand calculation). By enthalpy the capacity differs by 0.12 %, so does the time.
        let job = ReferenceJob {
            water_m3: 200.0 / water::density(15.0),
            from: 15.0,
            to: 60.0,
            ambient: 15.0,
            fuel_moisture: None,
        };
        let vessel = Vessel { capacity: 0.0, loss: 3.0 };
        let time = time(&Task::new(&job, vessel), vessel, 6000.0);
        let c = (water::enthalpy(60.0) - water::enthalpy(15.0)) / 45.0;
        assert!((time / (6350.7165 * c / 4186.0) - 1.0).abs() < 1e-6);
    }

    /// With and without loss, with time that is not the steady fire's, and a tank that is only held warm.
    #[test]
    fn flow_and_time_belong_together() {
        for (loss, fixed_s, excess) in
            [(4.0, 600.0, (2.0, 43.0)), (0.0, 600.0, (2.0, 43.0)), (9.0, 0.0, (-20.0, 75.0)), (1e-7, 0.0, (2.0, 43.0))]
        {
            let (task, vessel) = (Task { stored: 31e6, excess }, Vessel { capacity: 0.0, loss });
            let flow = steady_flow(&task, vessel, (fixed_s, 5400.0));
            assert!((steady_time(&task, vessel, flow, fixed_s) / 5400.0 - 1.0).abs() < 1e-12, "{loss} {fixed_s}");
        }
        let vessel = Vessel { capacity: 0.0, loss: 4.0 };
        let held = Task { stored: 0.0, excess: (40.0, 40.0) };
        // 4 W/K at 40 K over the whole time, given in the steady part of it.
        assert!((steady_flow(&held, vessel, (600.0, 5400.0)) / 160.0 / (6000.0 / 5400.0) - 1.0).abs() < 1e-12);
        assert!(steady_flow(&held, vessel, (0.0, 5400.0)).is_nan());
    }
}
