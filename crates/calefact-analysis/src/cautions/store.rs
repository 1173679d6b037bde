//! Cautions of the water: scald, tub limit, lukewarm store.

use super::{Scene, minutes};
use crate::finding::Finding;
use calefact_physics::caution;

/// Tank above the temperature at which water scalds.
pub fn scald(scene: &Scene) -> Option<Finding> {
    let tank = &scene.series.tank;
    let first = tank.iter().position(|t| *t >= caution::SCALD_SLOW)?;
    let highest = tank.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let how = if highest >= caution::SCALD_FAST { "seconds" } else { "minutes" };
    Some(
        Finding::note_text(
            "caution-scald",
            format!(
                "the tank passed {:.0} degC at {:.0} min and reached {highest:.1} degC: water of that temperature scalds within {how} (published times differ)",
                caution::SCALD_SLOW,
                minutes(scene.series.t[first])
            ),
        )
        .hint("mix down before hands, children or animals come near it"),
    )
}

/// Water meant for a tub above the tub limit. The register says so in a column `use`, or the vessel's id names a tub.
pub fn tub(scene: &Scene) -> Option<Finding> {
    let told = scene.row.extra.get("use").map(|text| text.to_lowercase());
    let is_tub = |text: &str| text.contains("tub") || text.contains("bath");
    if !told.as_deref().map_or_else(|| is_tub(&scene.row.vessel.to_lowercase()), is_tub) {
        return None;
    }
    let highest = scene.series.tank.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    (highest > caution::TUB_LIMIT).then(|| {
        Finding::warning_text(
            "caution-tub",
            format!(
                "the tub reached {highest:.1} degC; nobody should sit in water above {:.0} degC, and a tub thermometer may err by {:.1} K",
                caution::TUB_LIMIT,
                caution::TUB_THERMOSTAT_ERROR
            ),
        )
        .hint("cool it and read a second thermometer before anyone gets in; 38 degC is taken as safe for a healthy adult")
    })
}

/// Time at the end of the log over which a store must stay lukewarm, s.
const STAYS: f64 = 900.0;

/// A store left lukewarm, where bacteria grow: the last quarter of an hour within their range. The register's column
/// `use` says that the vessel is a store, or its id does.
pub fn lukewarm(scene: &Scene) -> Option<Finding> {
    let (low, high) = caution::LEGIONELLA_GROWTH;
    let told = scene.row.extra.get("use").map_or_else(|| scene.row.vessel.to_lowercase(), |text| text.to_lowercase());
    if !["store", "buffer", "storage"].iter().any(|word| told.contains(word)) {
        return None;
    }
    let last = *scene.series.tank.last()?;
    let from = scene.series.t.last()? - STAYS;
    let mut late = scene.series.t.iter().zip(&scene.series.tank).filter(|(t, _)| **t >= from);
    late.all(|(_, tank)| (low..=high).contains(tank)).then(|| {
        Finding::note_text(
            "caution-lukewarm-store",
            format!(
                "the store was left at {last:.1} degC; bacteria such as legionella grow between {low:.0} and {high:.0} degC"
            ),
        )
        .hint("water that is stored is kept above 60 degC or used at once; do not spray it lukewarm")
    })
}
