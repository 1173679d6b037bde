//! Register columns that change together with the factor compared, so that a difference may be due to either. Whether a
//! model can hold a column constant is the business of [`super::frame`]; a column that it does hold is not looked at here.

use super::conditions::parse;
use super::sample::Sample;
use crate::fact::ConfoundedColumn;
use calefact_data::register_columns;
use std::collections::{BTreeMap, BTreeSet};

/// Trials of each level that are looked at first.
const EARLY: usize = 8;

/// How a column can stand for another cause of a difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// A thing or a person: it matters whenever the two levels have none in common.
    Apparatus,
    /// A period: days within a level are repeats, so it matters only where each level has a single one.
    Period,
    /// A further column: it is a factor only where its levels are repeated.
    Further,
}

impl Role {
    /// Of a column by its name.
    pub(super) fn new(column: &str) -> Self {
        match column {
            "stove" | "fuel" | "exchanger" | "vessel" | "operator" => Self::Apparatus,
            "date" | "block" => Self::Period,
            _ => Self::Further,
        }
    }

    /// Whether so many levels in so many trials are more than a label of each trial.
    pub(super) fn repeats(self, levels: usize, trials: usize) -> bool {
        if self == Self::Further { 2 * levels <= trials } else { levels < trials }
    }
}

/// Levels of a column in some trials.
pub(super) struct Levels<'t> {
    role: Role,
    /// Trials whose level is known, by level.
    pub(super) counts: BTreeMap<&'t str, usize>,
    /// All trials.
    trials: usize,
}

impl<'t> Levels<'t> {
    /// None where too few cells are filled in. A blank exchanger is none; any other blank is unknown.
    pub(super) fn new(sample: &Sample<'t>, rows: &[usize], column: &str) -> Option<Self> {
        let role = Role::new(column);
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        known(sample, rows, column).for_each(|level| *counts.entry(level).or_insert(0) += 1);
        let filled: usize = counts.values().sum();
        let enough = if role == Role::Apparatus { filled > 0 } else { filled == rows.len() };
        enough.then_some(Self { role, counts, trials: rows.len() })
    }

    fn names(&self) -> Vec<String> {
        self.counts.keys().map(ToString::to_string).collect()
    }

    fn is_number(&self) -> bool {
        self.counts.keys().all(|level| parse(level).is_some())
    }

    /// Whether nothing tells the column apart from what separates these trials from the `others`.
    fn runs_along(&self, others: &Self) -> bool {
        let (own, other) = (self.counts.len(), others.counts.len());
        let disjoint = !self.counts.keys().any(|level| others.counts.contains_key(level));
        let constant = own == 1 && other == 1;
        let nested = match self.role {
            Role::Apparatus => true,
            Role::Period => false,
            Role::Further => !(self.is_number() && others.is_number()),
        };
        disjoint && (constant || nested) && self.role.repeats(own + other, self.trials + others.trials)
    }
}

/// Levels of a column where they are known.
fn known<'t>(sample: &Sample<'t>, rows: &[usize], column: &str) -> impl Iterator<Item = &'t str> {
    let blank = (column == "exchanger").then_some("");
    rows.iter().filter_map(move |&i| sample.trials[i].level(column).or(blank))
}

/// Whether the first of some trials share a level with the first of others: most columns need no counting.
fn share_early(sample: &Sample<'_>, a: &[usize], b: &[usize], column: &str) -> bool {
    let first = |rows: &[usize]| -> BTreeSet<&str> { known(sample, &rows[..rows.len().min(EARLY)], column).collect() };
    !first(a).is_disjoint(&first(b))
}

/// Columns that may matter: those of the register but the factor itself, what is `held` constant, and the measured amounts, which
/// the energies hold already.
pub(super) fn columns<'t>(sample: &Sample<'t>, factor: &str, held: &[&str]) -> Vec<&'t str> {
    let known = sample.trials.iter().map(|t| &t.columns[..]).max_by_key(|columns| columns.len()).unwrap_or_default();
    let mut wanted: Vec<&str> = known.iter().map(String::as_str).collect();
    let is_amount = |column: &str| register_columns::column(column).is_some_and(|c| c.kind().is_some());
    wanted.retain(|c| *c != factor && *c != "kind" && !held.contains(c) && !is_amount(c));
    wanted.sort_by_key(|column| (rank(column), *column));
    wanted
}

/// Place of a column where several are named: the likelier causes first.
fn rank(column: &str) -> usize {
    const ORDER: [&str; 5] = ["stove", "fuel", "exchanger", "vessel", "operator"];
    let period = ["block", "date"].iter().position(|c| *c == column).map(|i| ORDER.len() + 1 + i);
    ORDER.iter().position(|c| *c == column).or(period).unwrap_or(ORDER.len())
}

/// Columns that no trial separates from the difference between two levels.
pub(crate) fn between(sample: &Sample<'_>, (a, b): (&str, &str), factor: &str, held: &[&str]) -> Vec<ConfoundedColumn> {
    let (rows_a, rows_b) = (sample.rows_of(a), sample.rows_of(b));
    let together = |column: &&str| {
        if share_early(sample, &rows_a, &rows_b, column) {
            return None;
        }
        let (x, y) = (Levels::new(sample, &rows_a, column)?, Levels::new(sample, &rows_b, column)?);
        let fact = || ConfoundedColumn { column: (*column).to_owned(), a: x.names(), b: y.names() };
        x.runs_along(&y).then(fact)
    };
    columns(sample, factor, held).iter().filter_map(together).collect()
}

/// The named columns in the trials of two levels, whatever they have in common.
pub(crate) fn named(sample: &Sample<'_>, (a, b): (&str, &str), columns: &[String]) -> Vec<ConfoundedColumn> {
    let levels = |level: &str, column: &str| {
        let rows = sample.rows_of(level);
        let found: BTreeSet<&str> = rows.iter().filter_map(|&i| sample.trials[i].level(column)).collect();
        found.into_iter().map(ToOwned::to_owned).collect()
    };
    let fact = |c: &String| ConfoundedColumn { column: c.clone(), a: levels(a, c), b: levels(b, c) };
    columns.iter().map(fact).collect()
}

/// Columns that no trial separates from the trend along a factor of numbers: the number is the same in all trials of a level.
pub(crate) fn along(sample: &Sample<'_>, factor: &str, held: &[&str]) -> Vec<String> {
    let rows: Vec<usize> = (0..sample.len()).collect();
    let follows = |column: &&str| {
        let Some(levels) = Levels::new(sample, &rows, column) else { return false };
        let filled: usize = levels.counts.values().sum();
        let count = levels.counts.len();
        if filled < rows.len() || count < 2 || !levels.role.repeats(count, rows.len()) {
            return false;
        }
        let pairs: BTreeSet<(&str, &str)> =
            rows.iter().map(|&i| (sample.trials[i].level(column).unwrap_or_default(), sample.labels[i])).collect();
        let numbers: BTreeSet<&str> = sample.labels.iter().copied().collect();
        let nested = levels.role == Role::Apparatus || (levels.role == Role::Further && !levels.is_number());
        pairs.len() == count && (nested || numbers.len() == count)
    };
    columns(sample, factor, held).into_iter().filter(follows).map(ToOwned::to_owned).collect()
}
