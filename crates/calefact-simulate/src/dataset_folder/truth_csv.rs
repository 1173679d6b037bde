//! The text of the truth files.

use crate::{GroupTruth, SimulatedTrial};
use std::fmt::Write;

/// `truth.csv`: `trial, quantity, value, unit`, over the whole log.
pub(super) fn truth_csv<'a>(trials: impl Iterator<Item = &'a SimulatedTrial>) -> String {
    let mut text = String::from("trial,quantity,value,unit\n");
    for trial in trials {
        for (quantity, value) in &trial.truth {
            let _ = writeln!(text, "{},{},{value:.6},{}", trial.row.trial, quantity.name(), quantity.unit());
        }
    }
    text
}

/// `truth-groups.csv`: `factor, level, quantity, burns, value, unit`, the mean of the level's burns with no scatter.
pub(super) fn truth_groups_csv(groups: &[GroupTruth]) -> String {
    let mut text = String::from("factor,level,quantity,burns,value,unit\n");
    for g in groups {
        let (name, unit) = (g.quantity.name(), g.quantity.unit());
        let _ = writeln!(text, "{},{},{name},{},{:.6},{unit}", g.factor, g.level, g.burns, g.value);
    }
    text
}
