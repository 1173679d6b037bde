//! The text of the truth files.

use super::number::fixed;
use crate::group::GroupTruth;
use crate::trial::SimulatedTrial;
use std::fmt::Write;

/// `truth.csv`: `trial, quantity, value, unit`, over the whole log.
pub(super) fn truth_csv<'a>(trials: impl Iterator<Item = &'a SimulatedTrial>) -> String {
    let mut text = String::from("trial,quantity,value,unit\n");
    for trial in trials {
        for (quantity, value) in &trial.truth {
            let (name, unit) = (quantity.name(), quantity.unit());
            let _ = writeln!(text, "{},{name},{},{unit}", trial.row.trial, fixed(*value, 6));
        }
    }
    text
}

/// `truth-groups.csv`: `factor, level, quantity, burns, value, unit`, the mean of the level's burns with no scatter.
pub(super) fn truth_groups_csv(groups: &[GroupTruth]) -> String {
    let mut text = String::from("factor,level,quantity,burns,value,unit\n");
    for g in groups {
        let (name, unit) = (g.quantity.name(), g.quantity.unit());
        let _ = writeln!(text, "{},{},{name},{},{},{unit}", g.factor, g.level, g.burns, fixed(g.value, 6));
    }
    text
}
