//! The function that every forecast is: from one draw of law, vessel and stretch to time and wood of a job. Nothing random here.

use super::case::Case;
use crate::reference_job::{self, Task, Vessel};
use crate::result::{Draw, Stretch, VesselDraw};
use calefact_physics::fuel::net_as_fired;

/// Limits of the change beyond the data, of a rectangular distribution (GUM 4.3.7).
///
/// * Heat flow and burn rate each may change by a tenth in a job of many times the heat of any burn: a longer burn is refuelled
///   and opened, its embers lie longer, its stove has long been warm; in proportion to [`super::Beyond::heat`]. Common practice,
///   no source.
/// * The flow of heat into water follows the difference to the gas. Where that is 150 K or more on the way through the
///   exchanger, water that is hotter by 1 K takes up to 1/150 less; half of that over the last part of the way. Reasoning.
pub const LIMITS: Stretch = Stretch { power: 0.1, burn_rate: 0.1, hot: 0.5 / 150.0 };

/// Time and wood of a job, with their parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Time from lighting until the heat is in the water, s; infinite where the fire cannot bring the water there.
    pub time_s: f64,
    /// Wood burnt, kg.
    pub wood_kg: f64,
    /// Time added by light-up, burn-down and after-heat, s.
    pub fixed_s: f64,
    /// Heat flow while the fire is steady, W.
    pub power: f64,
}

/// Time and wood of a job.
///
/// With the job's water mass w, its enthalpies h, temperatures T0 to T1, air Ta, the vessel's C and U, and c, P, m of the law:
///
/// * r = q(job's moisture) / q(moisture of the draw), or 1 where either is not known; q(M) = qd (1 - M) - 2.443e6 M;
/// * c is at least 0; P' = P r (1 + 0.1 e1 b) (1 - e3 hot/300), m' = m (1 + 0.1 e2 b), with b and `hot` of [`super::Beyond`] and e of the
///   [`Stretch`];
/// * H = w (h1 - h0) + C (T1 - T0) + U c ((T0 - Ta) + (T1 - Ta)) / 2;
/// * a = P' - U (T0 - Ta), z = P' - U (T1 - Ta); s = H / ((z - a) / ln(z / a)), or H / a where they are equal;
/// * time = c + s, wood = m' s.
///
/// Closed form of C dT/dt = P - U (T - Ta) with the mean heat capacity of the water (J. P. Holman, Heat Transfer, lumped
/// capacity).
pub fn outcome(draw: &Draw, vessel: &VesselDraw, stretch: &Stretch, case: &Case) -> Outcome {
    let Case { task, net_dry, beyond } = case;
    let net = |moisture: f64| net_as_fired(*net_dry, moisture);
    let drier = task.fuel_moisture.map_or(1.0, |moisture| net(moisture) / net(draw.moisture));
    let drier = if drier.is_finite() { drier } else { 1.0 };
    let far = 1.0 + LIMITS.power * stretch.power * beyond.heat;
    let power = draw.power * drier * far * (1.0 - LIMITS.hot * stretch.hot * beyond.hot_k);
    let burn_rate = draw.burn_rate * (1.0 + LIMITS.burn_rate * stretch.burn_rate * beyond.heat);
    let fixed_s = draw.fixed_s.max(0.0);
    let vessel = Vessel { capacity: vessel.capacity, loss: vessel.loss.max(0.0) };
    let steady_s = reference_job::steady_time(&Task::new(task, vessel), vessel, power, fixed_s);
    let steady_s = if steady_s.is_nan() { f64::INFINITY } else { steady_s };
    Outcome { time_s: fixed_s + steady_s, wood_kg: burn_rate * steady_s, fixed_s, power }
}

/// Highest temperature that a heat flow (W) holds against the loss of a vessel, degC.
pub(super) fn highest(power: f64, vessel: &VesselDraw, ambient: f64) -> f64 {
    ambient + power / vessel.loss
}

/// Tank temperature at a time after lighting, degC: half of the fixed time passes before it rises.
pub(super) fn tank_at(elapsed_s: f64, outcome: &Outcome, vessel: &VesselDraw, case: &Case) -> f64 {
    let task = &case.task;
    let held = Vessel { capacity: vessel.capacity, loss: vessel.loss.max(0.0) };
    let capacity = Task::new(task, held).stored / (task.to - task.from);
    let heated = elapsed_s - 0.5 * outcome.fixed_s;
    if heated <= 0.0 {
        return task.from;
    }
    let rise = if held.loss * heated < 1e-6 * capacity {
        (outcome.power - held.loss * (task.from - task.ambient)) * heated / capacity
    } else {
        let limit = highest(outcome.power, vessel, task.ambient);
        (limit - task.from) * (1.0 - libm::exp(-held.loss * heated / capacity))
    };
    (task.from + rise).min(task.to)
}

#[cfg(test)]
mod tests {
    use super::super::Beyond;
    use super::*;
    use crate::settings::ReferenceJob;

    const LAW: Draw = Draw { power: 6000.0, fixed_s: 600.0, burn_rate: 0.001, moisture: 0.2 };
    const NONE: Stretch = Stretch { power: 0.0, burn_rate: 0.0, hot: 0.0 };

    fn case() -> Case {
        let task = ReferenceJob { water_m3: 0.2, from: 15.0, to: 60.0, ambient: 15.0, fuel_moisture: None };
        Case { task, net_dry: 18.5e6, beyond: Beyond::default() }
    }

    /// 199.8 kg of water from 15 to 60 degC take 37.57 MJ by IAPWS SR6-08 (density and enthalpies by hand from its tables, from
    /// memory), in 6262 s at 6 kW. At 20 and 16 % of moisture wood of 18.5 MJ/kg has 14.31 and 15.15 MJ/kg: q(M) of the text.
    #[test]
    fn without_loss_the_heat_takes_its_time() {
        let vessel = VesselDraw { capacity: 0.0, loss: 0.0 };
        let plain = outcome(&LAW, &vessel, &NONE, &case());
        assert!((plain.time_s / 6862.0 - 1.0).abs() < 1e-3, "{plain:?}");
        assert!((plain.wood_kg / 6.262 - 1.0).abs() < 1e-3, "{plain:?}");
        let mut drier = case();
        drier.task.fuel_moisture = Some(0.16);
        let drier = outcome(&LAW, &vessel, &NONE, &drier);
        assert!((plain.wood_kg / drier.wood_kg / (15.149 / 14.311) - 1.0).abs() < 1e-3, "{drier:?}");
    }

    #[test]
    fn the_curve_ends_where_the_job_does_and_a_leaky_vessel_never_does() {
        let vessel = VesselDraw { capacity: 10_000.0, loss: 20.0 };
        let found = outcome(&LAW, &vessel, &NONE, &case());
        assert!((tank_at(found.time_s, &found, &vessel, &case()) - 60.0).abs() < 1e-9);
        assert!((tank_at(100.0, &found, &vessel, &case()) - 15.0).abs() < 1e-9, "half of the fixed time passes first");
        let leaky = VesselDraw { loss: 200.0, ..vessel };
        assert!(outcome(&LAW, &leaky, &NONE, &case()).time_s.is_infinite());
        assert!((highest(LAW.power, &leaky, 15.0) - 45.0).abs() < 1e-12);
    }

    #[test]
    fn a_stretch_counts_beyond_the_burns_alone() {
        let vessel = VesselDraw { capacity: 10_000.0, loss: 4.0 };
        let far = Stretch { power: -1.0, burn_rate: 1.0, hot: 1.0 };
        let inside = outcome(&LAW, &vessel, &far, &case());
        assert_eq!(inside, outcome(&LAW, &vessel, &NONE, &case()));
        let outside = Case { beyond: Beyond { heat: 0.5, hot_k: 10.0 }, ..case() };
        let stretched = outcome(&LAW, &vessel, &far, &outside);
        assert!((stretched.power / (6000.0 * 0.95 * (1.0 - 10.0 / 300.0)) - 1.0).abs() < 1e-12);
        assert!(stretched.time_s > inside.time_s && stretched.wood_kg > inside.wood_kg);
    }
}
