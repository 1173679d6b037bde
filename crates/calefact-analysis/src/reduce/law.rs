//! The law of a burn: the few numbers by which it is carried over to another job.
//!
//! Light-up, burn-down and after-heat take the time they took, c. Between, the fire gives a steady heat flow P and burns
//! wood at a steady rate m, both reckoned so that the burn's own task takes exactly the burn's own time and wood: with s the
//! time less c, P is the flow that brings the vessel to where it came in s, and m the wood over s. A larger job is a longer
//! steady part. With other moisture the same mass burns in a second, and the flow goes with its calorific value.

use super::features::Features;
use super::inputs::Inputs;
use super::slots::Slot;
use crate::Quantity;
use crate::reference_job::{self, Task, Vessel};
use crate::result::{LawParameter, TrialExtent, TrialLaw};
use calefact_data::{Channel, Readings, RegisterRow, Water};
use calefact_physics::water;
use calefact_stats::UncertainValue;

/// The law of one burn for one set of inputs.
#[derive(Debug, Clone, Copy)]
pub(super) struct Law {
    /// Heat flow while the fire is steady, W.
    pub(super) power: f64,
    /// Time that light-up, burn-down and after-heat add, s.
    pub(super) fixed_s: f64,
    /// The rest of the time, s.
    pub(super) steady_s: f64,
}

impl Law {
    /// The law of a burn that did its own task in so long (s), of which light-up, burn-down and after-heat took a share.
    pub(super) fn new(duration: f64, fixed_share: f64, task: &Task, vessel: Vessel) -> Self {
        let fixed_s = fixed_share * duration;
        let steady_s = duration - fixed_s;
        let power = reference_job::steady_flow(task, vessel, (fixed_s, steady_s));
        Self { power, fixed_s, steady_s }
    }

    /// Its parameters in the order of [`LawParameter::ALL`], with the wood burnt (kg) and its moisture.
    pub(super) fn parameters(&self, burnt: f64, moisture: f64, vessel: Vessel) -> [f64; LawParameter::ALL.len()] {
        let rate = libm::log(burnt / self.steady_s);
        [libm::log(self.power), self.fixed_s, rate, moisture, vessel.capacity, vessel.loss]
    }
}

/// The law of a trial from its propagated parameters; none where it has no heat flow.
pub(super) fn of_trial(
    traced: &[UncertainValue],
    f: &Features,
    inputs: &Inputs,
    row: &RegisterRow,
    readings: &Readings,
) -> Option<TrialLaw> {
    let parameters = LawParameter::ALL.map(|p| traced[Quantity::ALL.len() + p as usize].clone());
    let is_known = |p: LawParameter| {
        let value = &parameters[p as usize];
        value.value.is_finite() && value.std_uncertainty().is_finite()
    };
    if !is_known(LawParameter::Power) || !is_known(LawParameter::FixedTime) {
        return None;
    }
    let extent = TrialExtent {
        water_m3: match row.water {
            Water::Volume(m3) => m3,
            Water::Mass(kg) => kg / water::density(f.fill_c),
        },
        stored: 1e6 * traced[Quantity::HeatStored as usize].value,
        end_c: f.end_c,
        duration_s: f.duration,
        load_kg: load(row, readings),
        kindling_kg: inputs.value(Slot::Kindling),
        net_dry: inputs.value(Slot::NetDry),
        price: inputs.value(Slot::Price),
    };
    Some(TrialLaw { parameters, extent })
}

/// Largest load of wood put on at once, kg: what the log has of it, or what the register has beyond.
fn load(row: &RegisterRow, readings: &Readings) -> f64 {
    let Some(all) = row.fuel_mass else { return f64::NAN };
    let logged = readings.channel(Channel::FuelAdded).unwrap_or_default();
    let loads = || logged.iter().copied().filter(|kg| *kg > 0.0);
    loads().fold((all - loads().sum::<f64>()).max(0.0), f64::max)
}
