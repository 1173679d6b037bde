//! Factors that the next burns vary, and those they hold.

use super::request::Past;
use crate::result::{PlanAnswer, TargetPlan};
use std::collections::BTreeMap;

/// Columns of things and people, which matter to a burn whether they are compared or not.
const APPARATUS: [&str; 5] = ["stove", "fuel", "exchanger", "vessel", "operator"];

/// A column that varies.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Varied {
    pub(super) column: String,
    pub(super) levels: Vec<String>,
    /// Burns wanted of each level; 0 where the column is only crossed.
    pub(super) wanted: Vec<u64>,
}

impl Varied {
    fn total(&self) -> u64 {
        self.wanted.iter().sum()
    }

    /// Adds burns to a level, which is new or known.
    fn add(&mut self, level: &str, burns: u64) {
        if let Some(i) = self.levels.iter().position(|l| l == level) {
            self.wanted[i] += burns;
        } else {
            self.levels.push(level.to_owned());
            self.wanted.push(burns);
        }
    }
}

/// Columns that vary, the one that asks for most burns first, and columns that are held.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Factors {
    pub(super) vary: Vec<Varied>,
    pub(super) hold: Vec<(String, String)>,
}

impl Factors {
    /// The factors of the targets, and what changes together with them, vary; everything else stays at the level most used.
    pub(super) fn new(past: &Past<'_>, targets: &[&TargetPlan]) -> Self {
        let mut vary: Vec<Varied> = Vec::new();
        for target in targets {
            let factor = entry(&mut vary, &target.factor);
            target.levels.iter().for_each(|l| factor.add(&l.level, u64::from(l.further)));
        }
        for target in targets {
            for (column, level) in crossed(target) {
                entry(&mut vary, column).add(level, 0);
            }
        }
        vary.sort_by_key(|f| std::cmp::Reverse(f.total()));
        let mut only: BTreeMap<&str, &str> = BTreeMap::new();
        for (column, level) in targets.iter().flat_map(|t| &t.only) {
            only.insert(column, level);
        }
        let is_varied = |column: &str| vary.iter().any(|f| f.column == column);
        let further = past.requests.iter().map(|r| r.factor.as_str()).chain(only.keys().copied());
        let mut columns: Vec<&str> = APPARATUS.into_iter().chain(further).filter(|c| !is_varied(c)).collect();
        let mut seen = std::collections::BTreeSet::new();
        columns.retain(|c| seen.insert(*c));
        let level = |column: &str| only.get(column).map(ToString::to_string).or_else(|| most_used(past, column));
        let hold = columns.into_iter().filter_map(|c| Some((c.to_owned(), level(c)?))).collect();
        Self { vary, hold }
    }

    /// Burns of the whole order: as many as the column that asks for most.
    pub(super) fn burns(&self) -> u64 {
        self.vary.first().map_or(0, Varied::total)
    }
}

fn entry<'v>(vary: &'v mut Vec<Varied>, column: &str) -> &'v mut Varied {
    let at = vary.iter().position(|f| f.column == column).unwrap_or_else(|| {
        vary.push(Varied { column: column.to_owned(), levels: Vec::new(), wanted: Vec::new() });
        vary.len() - 1
    });
    &mut vary[at]
}

/// Levels of the columns that change together with a factor; days are no level to choose.
fn crossed(target: &TargetPlan) -> Vec<(&str, &str)> {
    let PlanAnswer::Cross(cross) = &target.answer else { return Vec::new() };
    let columns = cross.columns.iter().filter(|c| !["date", "block"].contains(&c.column.as_str()));
    columns.flat_map(|c| c.a.iter().chain(&c.b).map(|level| (c.column.as_str(), level.as_str()))).collect()
}

/// The level that most burns so far have; without burns the first that is described.
fn most_used(past: &Past<'_>, column: &str) -> Option<String> {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for level in past.burns().filter_map(|row| row.level(column)) {
        *counts.entry(level).or_insert(0) += 1;
    }
    let most = counts.into_iter().max_by(|a, b| a.1.cmp(&b.1).then_with(|| b.0.cmp(a.0)));
    most.map(|(level, _)| level.to_owned()).or_else(|| past.described(column).into_iter().next())
}
