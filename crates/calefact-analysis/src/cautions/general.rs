//! Cautions that any burn under a coil calls for, whatever its log shows.

use super::{DEFERENCE, general_caution};
use crate::finding::Finding;
use crate::result::Caution;
use calefact_data::Severity;
use calefact_physics::caution;

/// The general cautions, where anything was `burnt`; empty otherwise.
pub fn all(burnt: bool) -> Vec<Caution> {
    if !burnt {
        return Vec::new();
    }
    let note = |code, text: String| general_caution(code, Severity::Note, text);
    vec![
        note(
            "caution-closed-coil",
            format!(
                "a coil or vessel with a closed or blocked outlet is a steam bomb: never heat one without an open vent or a relief valve, steam takes about {:.0} times the volume of its water",
                (caution::STEAM_EXPANSION / 100.0).round() * 100.0
            ),
        ),
        note(
            "caution-monoxide-general",
            "carbon monoxide has no smell: burn outdoors or under a flue that draws, with an alarm in the room".into(),
        ),
        note(
            "caution-fibre",
            "mineral-fibre insulation sheds dust when it is cut and after it has been heated: mask, gloves, and keep it enclosed".into(),
        ),
        note(
            "caution-solder",
            format!(
                "soft-soldered joints are rated to {:.0} degC at most and melt from {:.0} degC on: no soft solder where flue gas touches",
                caution::SOLDERED_JOINT_SERVICE,
                caution::SOLDER_TIN_LEAD
            ),
        ),
        note("caution-codes", DEFERENCE.into()),
    ]
}

/// The general cautions as findings of the analysis, so that every reader of findings shows them.
pub fn findings(burnt: bool) -> Vec<Finding> {
    all(burnt).into_iter().map(|c| Finding::in_words(c.severity, c.code, c.text)).collect()
}
