//! Levels of a column that differ only in case, in the width of spaces or in the code of their letters: two levels to the
//! program, one to the eye.

use crate::fact::RegisterFact;
use crate::register_columns::column;
use crate::{Finding, RegisterRow};
use std::collections::{BTreeMap, BTreeSet};
use unicode_normalization::UnicodeNormalization as _;

/// Columns of words whose cells are levels; `dataset.toml` may define ids that are twins.
const LEVELS: [&str; 6] = ["stove", "fuel", "exchanger", "vessel", "block", "operator"];

/// Warns once of each spelling that has an earlier twin.
pub(super) fn check(rows: &[RegisterRow], columns: &[String], findings: &mut Vec<Finding>) {
    let is_factor = |name: &str| LEVELS.contains(&name) || column(name).is_none();
    for (name, at) in columns.iter().zip(1..).filter(|(name, _)| is_factor(name)) {
        let mut first: BTreeMap<String, (&str, u64)> = BTreeMap::new();
        let mut met = BTreeSet::new();
        for (level, line) in rows.iter().filter_map(|row| Some((row.level(name)?, row.line))) {
            let (twin, twin_line) = *first.entry(folded(level)).or_insert((level, line));
            if twin != level && met.insert(level) {
                let (level, twin) = (level.to_owned(), twin.to_owned());
                let fact = RegisterFact::TwinLevels { column: name.clone(), level, twin, twin_line };
                findings.push(Finding::warning(fact).at("", Some(line), Some(at)));
            }
        }
    }
}

/// A level without what the eye passes over: case, width of spaces, and letters composed of two codes (Unicode NFC).
fn folded(level: &str) -> String {
    let lower: String = level.nfc().collect::<String>().to_lowercase();
    lower.split_whitespace().collect::<Vec<_>>().join(" ")
}
