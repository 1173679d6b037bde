//! Cautions of the water: scald, tub limit, lukewarm store.

use super::scene::Scene;
use crate::fact::CautionFact;
use calefact_physics::caution;

/// Time at the end of the log over which a store must stay lukewarm, s.
const STAYS: f64 = 900.0;

/// Tank above the temperature at which water scalds.
pub(super) fn scald(scene: &Scene) -> Option<CautionFact> {
    let first = scene.series.tank.iter().position(|t| *t >= caution::SCALD_SLOW)?;
    Some(CautionFact::Scald { from_s: scene.series.t[first], highest_degc: scene.hottest_tank() })
}

/// Water meant for a tub above the tub limit.
pub(super) fn tub(scene: &Scene) -> Option<CautionFact> {
    let highest_degc = scene.hottest_tank();
    let too_hot = highest_degc > caution::TUB_LIMIT && scene.is_used_as(&["tub", "bath"]);
    too_hot.then_some(CautionFact::Tub { highest_degc })
}

/// A store left lukewarm, where bacteria grow: the last quarter of an hour within their range.
pub(super) fn lukewarm(scene: &Scene) -> Option<CautionFact> {
    let (low, high) = caution::LEGIONELLA_GROWTH;
    let last_degc = *scene.series.tank.last()?;
    let from = scene.series.t.last()? - STAYS;
    let mut late = scene.series.t.iter().zip(&scene.series.tank).filter(|(t, _)| **t >= from);
    let stays = late.all(|(_, tank)| (low..=high).contains(tank));
    (stays && scene.is_used_as(&["store", "buffer", "storage"])).then_some(CautionFact::LukewarmStore { last_degc })
}
