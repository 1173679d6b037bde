//! Cautions: where a log shows what the trade warns of. Each is tied to a computed condition with its time and trial.
//!
//! They warn and do no more: local codes and licensed practice decide. Figures and their sources are in
//! [`calefact_physics::caution`]. One file a place: `coil`, `gas`, `store`.

mod coil;
mod gas;
mod scene;
mod store;

use crate::fact::CautionFact;
use crate::finding::Finding;
use calefact_data::Severity;

pub(crate) use scene::Scene;

/// All cautions of a trial, as findings.
pub(crate) fn findings(scene: &Scene) -> Vec<Finding> {
    let warnings = [
        coil::near_boiling(scene),
        coil::flow_stopped(scene),
        coil::dry(scene),
        gas::creosote(scene),
        gas::carbon_monoxide(scene),
        store::scald(scene),
        store::tub(scene),
        store::lukewarm(scene),
    ];
    let finding = |fact| Finding::new(severity(&fact), fact).at(scene.row.log.clone(), None, None);
    warnings.into_iter().flatten().map(finding).collect()
}

/// Water that is hot, or lukewarm, as any heated water is at some time, is worth a note; the rest a warning.
fn severity(fact: &CautionFact) -> Severity {
    match fact {
        CautionFact::Scald { .. } | CautionFact::LukewarmStore { .. } => Severity::Note,
        _ => Severity::Warning,
    }
}

/// The cautions that any burn under a coil calls for, whatever its log shows.
pub(crate) fn general() -> impl Iterator<Item = Finding> {
    CautionFact::GENERAL.into_iter().map(Finding::note)
}

#[cfg(test)]
mod tests;
