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

/// What the job takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Need {
    /// Time with heat arriving, s; NaN if the heat flow cannot hold the end temperature.
    pub(crate) time: f64,
    /// Heat to be delivered, stored plus lost, J.
    pub(crate) heat: f64,
}

/// Time and heat for the job at a constant heat flow (W).
pub(crate) fn run(job: &ReferenceJob, vessel: Vessel, heat_input: f64) -> Need {
    let water_kg = job.water_m3 * water::density(job.from);
    let stored =
        water_kg * (water::enthalpy(job.to) - water::enthalpy(job.from)) + vessel.capacity * (job.to - job.from);
    let (lost_first, lost_last) = (vessel.loss * (job.from - job.ambient), vessel.loss * (job.to - job.ambient));
    let (net_first, net_last) = (heat_input - lost_first, heat_input - lost_last);
    if !(net_first > 0.0 && net_last > 0.0) {
        return Need { time: f64::NAN, heat: f64::NAN };
    }
    let mean_net = log_mean(net_first, net_last);
    let time = stored / mean_net;
    Need { time, heat: heat_input * time }
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
        // and a loss of 0.4303 MJ (hand calculation). By enthalpy the capacity differs by 0.12 %, so does the time.
        let job = ReferenceJob {
            water_m3: 200.0 / water::density(15.0),
            from: 15.0,
            to: 60.0,
            ambient: 15.0,
            fuel_moisture: None,
        };
        let need = run(&job, Vessel { capacity: 0.0, loss: 3.0 }, 6000.0);
        let c = (water::enthalpy(60.0) - water::enthalpy(15.0)) / 45.0;
        assert!((need.time / (6350.7165 * c / 4186.0) - 1.0).abs() < 1e-6);
        assert!((need.heat - 200.0 * 45.0 * c - 0.4303e6 * c / 4186.0).abs() < 100.0);
    }
}
