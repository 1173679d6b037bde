//! Whether what a row names exists: stove, fuel, exchanger, vessel; and whether its trial id is its own.

use super::cells::Cells;
use crate::{Apparatus, nearest};
use std::collections::BTreeMap;

/// Reports ids that `dataset.toml` does not define, naming the nearest.
pub(super) fn check(cells: &mut Cells<'_>, apparatus: &Apparatus) {
    let known = |name: &str| -> Vec<&str> {
        match name {
            "stove" => apparatus.stoves.keys().map(String::as_str).collect(),
            "fuel" => apparatus.fuels.keys().map(String::as_str).collect(),
            "exchanger" => apparatus.exchangers.keys().map(String::as_str).collect(),
            _ => apparatus.vessels.keys().map(String::as_str).collect(),
        }
    };
    for name in ["stove", "fuel", "exchanger", "vessel"] {
        let ids = known(name);
        let Some(id) = cells.text(name).filter(|id| !ids.contains(&id.as_str())) else { continue };
        let hint = match nearest::nearest(&id, ids.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("add [{name}s.{id}] to dataset.toml"),
        };
        cells.error(name, "unknown-id", format!("dataset.toml defines no {name} `{id}`"), &hint);
    }
}

/// Reports a trial id that an earlier row, by its line, has.
pub(super) fn check_duplicate(cells: &mut Cells<'_>, earlier: &BTreeMap<String, u64>) {
    let Some(trial) = cells.text("trial") else { return };
    if let Some(first) = earlier.get(&trial) {
        let message = format!("trial `{trial}` stands already on line {first}");
        cells.error("trial", "duplicate-trial", message, "give each trial its own id");
    }
}
