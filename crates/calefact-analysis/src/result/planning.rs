//! A plan for the next burns: how many, in which order, what to hold, and when to stop.

use super::{Cross, ErrorOrigin};
use crate::Quantity;
use calefact_data::TrialKind;
use serde::Serialize;
use std::collections::BTreeMap;

/// A plan for the next burns.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CampaignPlan {
    /// The comparisons that are planned, in pipeline order.
    pub targets: Vec<TargetPlan>,
    /// The burns in order; none where nothing is to be burnt, or too much for a list.
    pub order: Option<BurnOrder>,
    /// Columns whose levels the order varies.
    pub vary: Vec<(String, Vec<String>)>,
    /// Columns that stay at one level.
    pub hold: Vec<(String, String)>,
    /// Middle of the conditions of the burns so far, to be kept.
    pub alike: Vec<Typical>,
    /// All burns that the comparisons ask for together.
    pub burns: u64,
}

/// The plan of one comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TargetPlan {
    /// Factor compared.
    pub factor: String,
    /// Restriction of the comparison.
    pub only: BTreeMap<String, String>,
    /// Kind of trial compared.
    pub kind: TrialKind,
    /// Main quantity.
    pub quantity: Quantity,
    /// Whether the mean is unknown, so that all sizes are shares of it.
    pub relative: bool,
    /// Levels with their trials.
    pub levels: Vec<LevelBurns>,
    /// Next step.
    pub answer: PlanAnswer,
    /// Aims, each with the burns it takes.
    pub aims: Vec<AimPlan>,
    /// Scatter between trials that the numbers rest on.
    pub scatter: Option<PlannedScatter>,
    /// Limits that no number of trials improves; none where no trial tells.
    pub floor: Option<Floor>,
    /// Burns that better instruments would save, the most first.
    pub savings: Vec<Saving>,
    /// Whether results were seen before the number was fixed.
    pub after_a_look: bool,
}

/// A level and its trials.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LevelBurns {
    /// Level.
    pub level: String,
    /// Trials that count so far.
    pub done: u32,
    /// Trials still to be made.
    pub further: u32,
}

/// Next step of a comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PlanAnswer {
    /// Stop: every pair is settled.
    Settled,
    /// Stop: a difference of the stated size would probably have shown.
    Enough,
    /// Go on by the number that is planned.
    GoOn {
        /// Trials of each level.
        planned: u32,
    },
    /// Make so many of each level in all.
    Burns {
        /// Trials of each level.
        each: u32,
        /// Whether those made so far do not count, since their verdict is given.
        fresh: bool,
    },
    /// Cross what changes together.
    Cross(Cross),
    /// No number of trials reaches any aim.
    OutOfReach,
    /// No size of difference can be planned for: those seen are small beside the scatter.
    TooSmall,
    /// Fewer than two levels are known.
    FewLevels {
        /// The only one.
        level: Option<String>,
    },
    /// Nothing tells the scatter or the size, neither trials nor guesses.
    NoGuess {
        /// Keys that are lacking.
        keys: Vec<&'static str>,
    },
    /// The levels are numbers, whose trend is not planned here.
    Trend {
        /// Whether the trend is told apart from none.
        settled: bool,
    },
}

/// An aim with the trials it takes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct AimPlan {
    /// The aim.
    pub aim: Aim,
    /// Burns that it takes.
    pub reach: BurnsNeeded,
}

/// Aim of trials.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    /// To show a difference.
    Difference {
        /// Its size, in the unit of the quantity.
        size: f64,
        /// Chance of showing it.
        power: f64,
        /// Who says so.
        source: AimSource,
    },
    /// To make the interval of a difference narrow.
    Width {
        /// Its whole width, in the unit of the quantity.
        size: f64,
    },
}

/// Where the size of a difference comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum AimSource {
    /// The builder states it.
    Stated,
    /// It is the comparison's margin of equivalence.
    Margin,
    /// It is the difference seen.
    Seen,
}

/// Burns that an aim takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BurnsNeeded {
    /// So many trials of each level.
    Each {
        /// With the scatter as it stands.
        trials: u32,
        /// With the scatter as large as the trials so far allow; none where it is a guess, or no number is enough.
        cautious: Option<u32>,
    },
    /// More than [`calefact_stats::power::MOST`].
    Beyond,
    /// No number: the shared errors alone are too large.
    Never,
}

impl BurnsNeeded {
    /// Trials of each level, where a number is enough.
    pub const fn trials(self) -> Option<u32> {
        match self {
            Self::Each { trials, .. } => Some(trials),
            Self::Beyond | Self::Never => None,
        }
    }
}

/// Scatter between the trials of a level.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlannedScatter {
    /// Standard deviation.
    pub sd: f64,
    /// Degrees of freedom behind it; none for a guess.
    pub dof: Option<f64>,
}

/// Limits that no number of trials improves.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Floor {
    /// The smallest difference that can be shown.
    pub difference: f64,
    /// The narrowest interval of a difference, whole width.
    pub width: f64,
    /// The largest of the shared errors, with its share of their variance.
    pub largest: Option<(ErrorOrigin, f64)>,
}

/// Burns that half the error of an instrument or input would save.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Saving {
    /// Whose error.
    pub origin: ErrorOrigin,
    /// Trials of each level without it; none where the aim is out of reach today.
    pub today: Option<f64>,
    /// Trials of each level with half the error.
    pub halved: f64,
}

/// Middle of the conditions of the trials so far.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Typical {
    /// Register column or condition.
    pub column: &'static str,
    /// Median, SI.
    pub value: f64,
}

/// The burns in order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BurnOrder {
    /// Burns.
    pub burns: Vec<PlannedBurn>,
    /// Seed of the draw.
    pub seed: u64,
    /// Burns of a day.
    pub per_day: usize,
}

impl BurnOrder {
    /// Number of days.
    pub fn days(&self) -> usize {
        self.burns.last().map_or(0, |b| b.day)
    }
}

/// A burn to be made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlannedBurn {
    /// Day, from 1.
    pub day: usize,
    /// Its date, where the first day is stated.
    pub date: Option<String>,
    /// Place in the day, from 1.
    pub position: usize,
    /// Proposed name of the block.
    pub block: String,
    /// Proposed id of the trial.
    pub trial: String,
    /// Columns with their levels: those that vary, then those that are held.
    pub levels: Vec<(String, String)>,
}
