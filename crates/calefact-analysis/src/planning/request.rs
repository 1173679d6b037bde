//! Ingredients of a plan: the wishes and guesses of the builder, and the burns so far.

use crate::Quantity;
use crate::result::{Analysis, Comparison, Conditions};
use crate::settings::ComparisonRequest;
use calefact_data::{Apparatus, RegisterRow, TrialKind, Water};
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};

/// A size as it is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Size {
    /// A share of the mean.
    Share(f64),
    /// An amount in the unit of the quantity.
    Amount(f64),
}

impl Size {
    /// The amount, where a share has its mean.
    pub(super) fn amount(self, mean: Option<f64>) -> Option<f64> {
        match self {
            Self::Amount(amount) => Some(amount),
            Self::Share(share) => mean.map(|m| share * m.abs()),
        }
    }
}

/// Wishes and guesses.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanRequest {
    /// The only comparison that is planned, by its factor; all if none is named.
    pub factor: Option<String>,
    /// Levels of that factor that no burn and no apparatus names.
    pub levels: Vec<String>,
    /// Smallest difference that matters, by quantity.
    pub difference: BTreeMap<Quantity, Size>,
    /// Wanted whole width of the interval of a difference, by quantity.
    pub width: BTreeMap<Quantity, Size>,
    /// Guessed standard deviation between burns, by quantity; it goes before what the burns show.
    pub scatter: BTreeMap<Quantity, Size>,
    /// Guessed mean, by quantity.
    pub mean: BTreeMap<Quantity, f64>,
    /// Chance of showing a difference that is there.
    pub power: f64,
    /// Burns of a day.
    pub burns_per_day: usize,
    /// Day of the first burn.
    pub first_day: Option<Date>,
    /// Seed of the order.
    pub seed: u64,
}

impl Default for PlanRequest {
    /// No wish but a power of 80 %, two burns a day, seed 1.
    fn default() -> Self {
        Self {
            factor: None,
            levels: Vec::new(),
            difference: BTreeMap::new(),
            width: BTreeMap::new(),
            scatter: BTreeMap::new(),
            mean: BTreeMap::new(),
            power: 0.8,
            burns_per_day: 2,
            first_day: None,
            seed: 1,
        }
    }
}

impl PlanRequest {
    /// Whether sizes are stated for a quantity, and all of them as shares of its mean.
    pub(super) fn has_shares_only(&self, quantity: Quantity) -> bool {
        let mut sizes = self.sizes(quantity).peekable();
        sizes.peek().is_some() && sizes.all(|size| matches!(size, Size::Share(_)))
    }

    /// Whether a size is stated as a share of the mean.
    pub(super) fn has_share(&self, quantity: Quantity) -> bool {
        self.sizes(quantity).any(|size| matches!(size, Size::Share(_)))
    }

    fn sizes(&self, quantity: Quantity) -> impl Iterator<Item = &Size> {
        [&self.difference, &self.width, &self.scatter].into_iter().filter_map(move |sizes| sizes.get(&quantity))
    }
}

/// The burns so far and what they were made with.
#[derive(Debug, Clone, Copy)]
pub struct Past<'a> {
    /// Analysis of them.
    pub analysis: &'a Analysis,
    /// Comparisons that the pipeline asks for, those without trials too.
    pub requests: &'a [ComparisonRequest],
    /// The apparatus.
    pub apparatus: &'a Apparatus,
    /// All register rows.
    pub rows: &'a [RegisterRow],
}

impl<'a> Past<'a> {
    /// The comparison of a request, where there were trials.
    pub(super) fn comparison(&self, request: &ComparisonRequest) -> Option<&'a Comparison> {
        let is_it = |c: &&Comparison| c.factor == request.factor && c.only == request.only && c.kind == request.kind;
        self.analysis.comparisons.iter().find(is_it)
    }

    /// Burns that count in comparisons.
    pub(super) fn burns(&self) -> impl Iterator<Item = &'a RegisterRow> {
        let usable: BTreeSet<&str> = self.analysis.trials.iter().filter(|t| t.usable()).map(|t| &*t.trial).collect();
        self.rows.iter().filter(move |r| r.kind == TrialKind::Burn && usable.contains(r.trial.as_str()))
    }

    /// A setting of a burn: a column of its register row, or a condition found in its log.
    pub(super) fn setting(&self, row: &RegisterRow, column: &str) -> Option<f64> {
        if Conditions::NAMES.contains(&column) {
            let trial = self.analysis.trials.iter().find(|t| *t.trial == *row.trial)?;
            return trial.conditions.get(column);
        }
        match (column, row.water) {
            ("water", Water::Mass(_)) => None,
            _ => row.number(column),
        }
    }

    /// Ids of a kind of apparatus.
    pub(super) fn described(&self, column: &str) -> Vec<String> {
        let a = self.apparatus;
        match column {
            "stove" => a.stoves.keys().cloned().collect(),
            "fuel" => a.fuels.keys().cloned().collect(),
            "exchanger" => a.exchangers.keys().cloned().collect(),
            "vessel" => a.vessels.keys().cloned().collect(),
            _ => Vec::new(),
        }
    }
}
