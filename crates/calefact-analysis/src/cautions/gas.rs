//! Cautions of the flue gas: creosote, carbon monoxide.

use super::scene::Scene;
use crate::fact::CautionFact;
use crate::series;
use calefact_data::Channel;
use calefact_physics::caution;

/// Share of the steady part below the creosote guidance that calls for a caution.
const SHARE: f64 = 0.1;
/// CO in dry flue gas that calls for a caution, fraction: any flue has some; this is well above a trace.
const MONOXIDE: f64 = 500e-6;

/// Gas after the exchanger (or in a flue with one probe) below the creosote guidance for a share of the steady part.
pub(super) fn creosote(scene: &Scene) -> Option<CautionFact> {
    let gas = scene.readings.channel(Channel::FlueAfter)?;
    let part = scene.steady?;
    let inside = &gas[series::between(&scene.readings.elapsed_s, part.start_s, part.end_s)];
    let known: Vec<f64> = inside.iter().copied().filter(|t| t.is_finite()).collect();
    let cold = known.iter().filter(|t| **t < caution::CREOSOTE_FLUE_GAS).count();
    let share = cold as f64 / known.len().max(1) as f64;
    let lowest_degc = known.iter().copied().fold(f64::INFINITY, f64::min);
    (share > SHARE).then_some(CautionFact::Creosote { share, part, lowest_degc })
}

/// Carbon monoxide measured in the flue.
pub(super) fn carbon_monoxide(scene: &Scene) -> Option<CautionFact> {
    let co = scene.readings.channel(Channel::FlueCo)?;
    let known = co.iter().copied().enumerate().filter(|(_, c)| c.is_finite());
    let (row, fraction) = known.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let fact = CautionFact::CarbonMonoxide { fraction, at_s: scene.readings.elapsed_s[row] };
    (fraction > MONOXIDE).then_some(fact)
}
