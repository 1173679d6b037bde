//! Remarks on a comparison as facts: its design, its model, odd trials, excluded trials, interactions.

use super::{Uneven, UnevenCondition, VerdictKind};
use crate::Quantity;
use serde::Serialize;

/// A fact that a reader must know to believe, or doubt, a comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Remark {
    /// The factor has fewer than two levels: nothing can be compared.
    TooFewLevels {
        /// Factor compared.
        factor: String,
        /// Its levels.
        levels: usize,
    },
    /// Trials beyond the planned number, which have no part in the comparison.
    BeyondPlan {
        /// Factor compared.
        factor: String,
        /// Trials planned of each level.
        planned: u32,
        /// Trials left out.
        left_out: usize,
    },
    /// Levels with one trial each.
    TriedOnce {
        /// Factor compared.
        factor: String,
        /// Levels with one trial.
        levels: Vec<String>,
        /// Whether a model takes their scatter from the other levels; else they are in no test.
        adjusted: bool,
    },
    /// No trial has this column, so nothing is adjusted for it.
    ColumnEmpty(String),
    /// Trials left out because a column that the comparison is adjusted for is blank.
    Incomplete {
        /// Factor compared.
        factor: String,
        /// Trials left out.
        left_out: usize,
        /// Trials with the quantity.
        of: usize,
    },
    /// The means are compared without adjustment.
    NotAdjusted {
        /// Factor compared.
        factor: String,
        /// Columns it should have been adjusted for.
        held: Vec<String>,
        /// Why not.
        reason: NoAdjustment,
    },
    /// Effects of adjusting columns that cannot be told apart; the factor's can.
    Confounded(Vec<Confounded>),
    /// A level of another column is unevenly spread over two levels of the factor.
    Uneven(Box<Uneven>),
    /// A condition of the trials differs between two levels of the factor.
    UnevenCondition(Box<UnevenCondition>),
    /// Quantities that rest on few readings in some trials and on a logger's in the others, which are averaged together.
    FewReadings {
        /// The quantities.
        quantities: Vec<Quantity>,
        /// Trials of few readings, of the first quantity.
        few: usize,
        /// Trials that have it.
        of: usize,
    },
    /// A conductance that trials lack because their effectiveness came out as high as it can be, so that the mean of the
    /// others is too low.
    OneSided {
        /// The quantity.
        quantity: Quantity,
        /// The trials that lack it.
        trials: Vec<String>,
    },
    /// A model could not be fitted, so this quantity is compared without adjustment.
    NoFit {
        /// Quantity concerned.
        quantity: Quantity,
        /// Why not.
        reason: FitFailure,
    },
    /// The variance between blocks did not settle, so the blocks are left out of the model.
    BlockLeftOut {
        /// Quantity concerned.
        quantity: Quantity,
        /// Block column.
        block: String,
    },
    /// The difference between levels depends on another factor.
    Interaction(Interaction),
    /// Whether the difference between levels depends on another factor is not tested: too many combinations of levels.
    InteractionUntested {
        /// Quantity concerned.
        quantity: Quantity,
        /// Factor compared.
        factor: String,
        /// The other factor.
        other: String,
        /// Combinations of their levels.
        combinations: usize,
        /// Combinations up to which it is tested.
        most: usize,
    },
    /// A trial far from what the others lead to expect; it is kept.
    OddTrial(OddTrial),
    /// Further odd trials that have no remark of their own.
    MoreOddTrials(usize),
    /// A verdict that changes when any one of these trials is left out.
    Fragile {
        /// The trials.
        trials: Vec<String>,
        /// The verdict with all trials and without one of these.
        change: VerdictChange,
    },
    /// An odd trial without which no verdict changes.
    NoVerdictChanges(String),
    /// Further verdicts that change without a trial.
    MoreFragile(usize),
    /// Trials that the register excludes, and the result with them put back.
    Excluded(Excluded),
}

impl Remark {
    /// Whether both remarks are about the same thing, such as an odd trial of two comparisons, so that one is enough in a
    /// summary.
    pub fn same_subject(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::OddTrial(a), Self::OddTrial(b)) => a.trial == b.trial,
            _ => self == other,
        }
    }
}

/// Why a comparison is not adjusted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NoAdjustment {
    /// As many effects as trials, or more: no scatter is left.
    TooManyEffects {
        /// Trials.
        trials: usize,
        /// Independent effects.
        effects: usize,
    },
    /// More effects than a model is fitted with.
    TooLarge {
        /// Effects of the factor and of the columns held constant.
        effects: usize,
        /// Effects up to which a model is fitted.
        most: usize,
    },
    /// The factor's effects cannot be told apart from others.
    Confounded(Vec<Confounded>),
    /// The columns make no valid design.
    NoDesign,
    /// A level's mean, or a contrast, cannot be estimated by the model.
    NotEstimable(Quantity),
}

/// An effect that cannot be told apart from others.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Confounded {
    /// The effect.
    pub effect: Effect,
    /// The effects it always changes with; empty when no trial has it.
    pub with: Vec<Effect>,
}

/// A level of a factor, or a covariate.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Effect {
    /// Column.
    pub column: String,
    /// Level, of a factor.
    pub level: Option<String>,
}

/// Why a mixed model could not be fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FitFailure {
    /// The trials cannot tell all effects.
    EffectsNotEstimable,
    /// The trials leave no residual scatter.
    NoScatter,
    /// The variances did not settle.
    NotConverged,
}

/// Test of whether the difference between levels of a factor depends on another factor.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Interaction {
    /// Quantity tested.
    pub quantity: Quantity,
    /// Factor compared.
    pub factor: String,
    /// The other factor.
    pub other: String,
    /// F statistic.
    pub f: f64,
    /// Its numerator degrees of freedom.
    pub numerator_dof: f64,
    /// Its denominator degrees of freedom.
    pub denominator_dof: f64,
    /// p-value of no interaction.
    pub p_value: f64,
}

/// A trial far from what the others lead to expect.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OddTrial {
    /// Trial id.
    pub trial: String,
    /// Its note in the register.
    pub note: Option<String>,
    /// How far it lies above (or, negative, below) what is expected, in standard deviations, by quantity.
    pub distances: Vec<(Quantity, f64)>,
    /// The smallest Bonferroni p-value over the quantities.
    pub p_value: f64,
    /// Trials it is one of.
    pub among: usize,
}

/// A verdict that changes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct VerdictChange {
    /// Quantity compared.
    pub quantity: Quantity,
    /// Factor compared.
    pub factor: String,
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// Verdict of the comparison, a against b.
    pub from: VerdictKind,
    /// Verdict after the change.
    pub to: VerdictKind,
}

/// Trials that the register excludes, and the result with them put back.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Excluded {
    /// Trial ids with their reasons.
    pub trials: Vec<(String, String)>,
    /// Verdicts that would change.
    pub changes: Vec<VerdictChange>,
    /// The mean that would change most, as a share of itself.
    pub largest: Option<MeanChange>,
}

/// A mean that changes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MeanChange {
    /// Quantity.
    pub quantity: Quantity,
    /// Factor compared.
    pub factor: String,
    /// Level.
    pub level: String,
    /// Mean of the comparison.
    pub from: f64,
    /// Mean after the change.
    pub to: f64,
}
