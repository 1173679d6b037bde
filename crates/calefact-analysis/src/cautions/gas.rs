//! Cautions of the flue gas: creosote, carbon monoxide.

use super::{Scene, minutes};
use crate::finding::Finding;
use crate::series;
use calefact_data::Channel;
use calefact_physics::caution;

/// Share of the steady part below the creosote guidance that calls for a caution.
const SHARE: f64 = 0.1;
/// CO in dry flue gas that calls for a caution, fraction: any flue has some; this is well above a trace.
const MONOXIDE: f64 = 500e-6;

/// Gas after the exchanger (or in a flue with one probe) below the creosote guidance for a share of the steady part.
pub fn creosote(scene: &Scene) -> Option<Finding> {
    let gas = scene.readings.channel(Channel::FlueAfter)?;
    let (start, end) = scene.steady?;
    let inside = &gas[series::between(&scene.readings.elapsed_s, start, end)];
    let known: Vec<f64> = inside.iter().copied().filter(|t| t.is_finite()).collect();
    let cold = known.iter().filter(|t| **t < caution::CREOSOTE_FLUE_GAS).count();
    let share = cold as f64 / known.len().max(1) as f64;
    let lowest = known.iter().copied().fold(f64::INFINITY, f64::min);
    (share > SHARE).then(|| {
        Finding::warning_text(
            "caution-creosote",
            format!(
                "the gas left the exchanger below {:.0} degC for {:.0} % of the steady part ({:.0} to {:.0} min; down to {lowest:.0} degC): tar condenses as creosote there",
                caution::CREOSOTE_FLUE_GAS,
                100.0 * share,
                minutes(start),
                minutes(end)
            ),
        )
        .hint("look into the flue and sweep it; take less heat from the gas, or burn hotter and drier")
    })
}

/// Carbon monoxide measured in the flue.
pub fn carbon_monoxide(scene: &Scene) -> Option<Finding> {
    let co = scene.readings.channel(Channel::FlueCo)?;
    let (row, most) = co.iter().enumerate().filter(|(_, c)| c.is_finite()).max_by(|a, b| a.1.total_cmp(b.1))?;
    (*most > MONOXIDE).then(|| {
        Finding::warning_text(
            "caution-carbon-monoxide",
            format!(
                "the flue gas held up to {:.0} ppm of carbon monoxide, at {:.0} min: a leaking flue or a back-draught brings it into the room",
                1e6 * most,
                minutes(scene.readings.elapsed_s[row])
            ),
        )
        .hint("an alarm in the room, air from outside, and a flue that draws")
    })
}
