//! The book: what heat and jobs take with each combination of stove, fuel and exchanger, rig by rig, and over rigs.

use super::Spread;
use crate::settings::ReferenceJob;
use calefact_stats::Interval;
use serde::Serialize;
use std::collections::BTreeSet;

/// A combination of stove, fuel and exchanger on one rig.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BookEntry {
    /// The rig, by the name of its pipeline.
    pub rig: String,
    /// Stove, fuel and exchanger.
    pub combination: CombinationIds,
    /// Its name for readers, where another book states it.
    pub name: Option<String>,
    /// Marks of its burns, each the same wherever the burn is read.
    pub burns: BTreeSet<u64>,
    /// When they were.
    pub period: Period,
    /// Currency of its costs, where one is stated.
    pub currency: Option<String>,
    /// Wood, time and cost.
    pub lines: Vec<BookLine>,
}

impl BookEntry {
    /// Place of the line of work and measure: of the work itself, else of the same work under another name.
    pub fn place(&self, work: &Work, measure: BookMeasure) -> Option<usize> {
        let find = |is_work: &dyn Fn(&Work) -> bool| {
            self.lines.iter().position(|line| line.measure == measure && is_work(&line.work))
        };
        find(&|own| own == work).or_else(|| find(&|own| own.is_like(work)))
    }
}

/// Ids of stove, fuel and exchanger, each where named.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize)]
pub struct CombinationIds {
    /// Stove.
    pub stove: Option<String>,
    /// Fuel.
    pub fuel: Option<String>,
    /// Exchanger.
    pub exchanger: Option<String>,
}

/// When burns were. A season is a heating year, July to June.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Period {
    /// Seasons, each by the year in which it begins.
    pub seasons: BTreeSet<i16>,
    /// Last date, as 2025-03-31.
    pub last: Option<String>,
    /// Burns without a date that can be read.
    pub undated: usize,
}

/// One figure of a combination.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BookLine {
    /// The work to be done.
    pub work: Work,
    /// Amount of it.
    pub measure: BookMeasure,
    /// Burns behind it.
    pub n: usize,
    /// Figure with its intervals: kg, s, or the currency.
    pub spread: Spread,
    /// Whether the work lies beyond the burns.
    pub is_outside: bool,
}

/// The work to be done.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Work {
    /// One kWh of heat into the vessel.
    Heat,
    /// A job.
    Job {
        /// Its name.
        name: String,
        /// Water and temperatures. Jobs of two books are the same if these are.
        task: ReferenceJob,
    },
}

impl Work {
    /// Whether both are the same work, whatever it is called.
    pub fn is_like(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Heat, Self::Heat) => true,
            (Self::Job { task: a, .. }, Self::Job { task: b, .. }) => a == b,
            _ => false,
        }
    }
}

/// Measures of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BookMeasure {
    /// Wood, kg.
    Wood,
    /// Time, s.
    Time,
    /// Cost, in the currency.
    Cost,
}

impl BookMeasure {
    /// All measures.
    pub const ALL: [Self; 3] = [Self::Wood, Self::Time, Self::Cost];

    /// Word for it in tables.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Wood => "wood",
            Self::Time => "time",
            Self::Cost => "cost",
        }
    }
}

/// The same figure of several rigs, combined with the scatter between them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RigsLine {
    /// Stove, fuel and exchanger.
    pub combination: CombinationIds,
    /// The work to be done.
    pub work: Work,
    /// Amount of it.
    pub measure: BookMeasure,
    /// Currency of a cost.
    pub currency: Option<String>,
    /// Rigs behind it.
    pub rigs: usize,
    /// Burns behind it.
    pub burns: usize,
    /// Figure of the mean rig.
    pub value: f64,
    /// Interval of the mean rig.
    pub mean: Interval,
    /// Interval of the mean of one new rig; none of two rigs.
    pub new_rig: Option<Interval>,
    /// Standard deviation between rigs, as a share of the figure.
    pub between: f64,
}

/// A whole book.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Book {
    /// Combinations, those of the own rig first.
    pub entries: Vec<BookEntry>,
    /// Figures of several rigs together.
    pub rigs: Vec<RigsLine>,
}
