//! The columns of all files together: which meaning each header has, and whether those of another file go with it.

use super::clock::Form;
use super::facts::{ColumnProposal, LeftOut, Meaning};
use crate::text::header::{folded, split_unit};
use std::collections::{BTreeMap, BTreeSet};

/// The columns of the files so far, each header once.
#[derive(Debug, Default)]
pub(super) struct Joint {
    columns: Vec<ColumnProposal>,
    /// Places of the columns, by their header and by its name without the unit.
    places: BTreeMap<String, Vec<usize>>,
    /// Patterns of the clocks; none for one that no pattern of ours fits.
    patterns: BTreeSet<Option<String>>,
    /// Whether the reader does not know one of the clocks without its pattern, which then holds for all.
    needs_pattern: bool,
}

impl Joint {
    /// Why a file does not go with those before it: `dataset.toml` would give one header two meanings, or needs two patterns.
    pub(super) fn conflict(&self, columns: &[ColumnProposal], clock: Option<&Form>) -> Option<LeftOut> {
        let is_other = |form: &Form| self.patterns.iter().any(|pattern| *pattern != form.pattern);
        let other_clock = clock.is_some_and(|form| (form.needs_pattern || self.needs_pattern) && is_other(form));
        self.other_meaning(columns).or(other_clock.then_some(LeftOut::OtherClock))
    }

    fn other_meaning(&self, columns: &[ColumnProposal]) -> Option<LeftOut> {
        columns.iter().find_map(|here| {
            let is_other = |before: &&ColumnProposal| overrides(before, here) || overrides(here, before);
            let before = keys(here).iter().find_map(|key| self.at(key).find(is_other))?;
            let [before, here_meaning] = [before, here].map(meaning);
            Some(LeftOut::OtherMeaning { header: here.header.clone(), before, here: here_meaning })
        })
    }

    /// Adds the columns of a file that go with those before it.
    pub(super) fn add(&mut self, columns: &[ColumnProposal], clock: Option<&Form>) {
        self.patterns.extend(clock.map(|form| form.pattern.clone()));
        self.needs_pattern |= clock.is_some_and(|form| form.needs_pattern);
        for column in columns.iter().filter(|c| !c.header.is_empty()) {
            let whole = folded(&column.header);
            let same = |known: &&ColumnProposal| folded(&known.header) == whole;
            if self.at(&whole).find(same).is_some_and(|known| known.mapped || !column.mapped) {
                continue;
            }
            for key in keys(column) {
                self.places.entry(key).or_default().push(self.columns.len());
            }
            self.columns.push(column.clone());
        }
    }

    /// Columns whose header, or its name without the unit, is this key.
    fn at(&self, key: &str) -> impl Iterator<Item = &ColumnProposal> {
        self.places.get(key).into_iter().flatten().map(|at| &self.columns[*at])
    }

    /// The columns, in the order of the files.
    pub(super) fn into_columns(self) -> Vec<ColumnProposal> {
        self.columns
    }
}

/// The header as a whole and, where it has a unit, its name without.
fn keys(column: &ColumnProposal) -> Vec<String> {
    let mut keys = vec![folded(&column.header), folded(split_unit(&column.header).0)];
    keys.dedup();
    keys.retain(|key| !key.is_empty());
    keys
}

/// Whether the line of `dataset.toml` for one column would be read for the other, too, and give it another meaning. A header that
/// has a line of its own, with its unit, does not go by the line of the bare name.
fn overrides(line: &ColumnProposal, other: &ColumnProposal) -> bool {
    let is_same = folded(&line.header) == folded(&other.header);
    let is_read = is_same || !other.mapped && folded(&line.header) == folded(split_unit(&other.header).0);
    line.mapped && is_read && (line.role != other.role || is_same && other.mapped && line.unit != other.unit)
}

fn meaning(column: &ColumnProposal) -> Meaning {
    Meaning { column: column.role.column(), unit: column.unit }
}
