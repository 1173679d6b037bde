//! The part of every trial that is kept once its rows are written: as much as comparing and the charts of every trial ask for.

use super::{Conditions, Heater, LawParameter, Missing, Name, Numbers, OperatingPart, TrialExtent};
use crate::Quantity;
use crate::fact::Lack;
use crate::fit::FitQuality;
use crate::shared::SharedValue;
use calefact_data::TrialKind;
use calefact_stats::Interval;
use serde::Serialize;
use std::sync::Arc;

/// A trial in few words. Thousands of them are in memory at once: what only tables hold is not here.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrialSummary {
    /// Trial id.
    pub trial: Arc<str>,
    /// A number that is the same wherever this trial is read.
    pub mark: u64,
    /// Kind.
    pub kind: TrialKind,
    /// Whether its data have no error.
    pub sound: bool,
    /// Reason for leaving it out of comparisons.
    pub exclude: Option<Box<str>>,
    /// Remark of the register.
    pub note: Option<Box<str>>,
    /// How badly the heat-balance model fits, where it does not.
    pub misfit: Option<Box<FitQuality>>,
    /// Conditions a comparison can adjust for.
    pub conditions: Conditions,
    /// Quantities that a comparison or a chart of all trials asks for, and shares of the energy balance.
    pub numbers: Numbers,
    /// Extent of a burn with a law.
    pub extent: Option<Box<TrialExtent>>,
    /// Check of the rig, of a reference-heater trial.
    pub heater: Option<Heater>,
    /// Register columns that an analysis asks for; those of a later trial may be more, never in another order.
    pub(crate) columns: Arc<[String]>,
    /// Levels in those columns.
    pub(crate) levels: Box<[Option<Arc<str>>]>,
}

impl TrialSummary {
    /// Level of a factor that some comparison or chart asks for; `None` where it is blank, or where nothing asks for it.
    pub fn level(&self, factor: &str) -> Option<&str> {
        let at = self.columns.iter().position(|c| c == factor)?;
        self.levels[at].as_deref()
    }

    /// The value of one quantity.
    pub fn get(&self, quantity: Quantity) -> Option<SharedValue<'_>> {
        self.spanned(quantity).map(|(value, _)| value)
    }

    /// The same with its interval.
    pub fn spanned(&self, quantity: Quantity) -> Option<(SharedValue<'_>, Interval)> {
        self.numbers.get(Name::Quantity(quantity))
    }

    /// Share of a term of the energy balance.
    pub fn share(&self, term: &'static str) -> Option<SharedValue<'_>> {
        self.numbers.get(Name::Share(term)).map(|(value, _)| value)
    }

    /// A parameter of the law of a burn.
    pub fn law(&self, parameter: LawParameter) -> Option<SharedValue<'_>> {
        self.numbers.get(Name::Law(parameter)).map(|(value, _)| value)
    }

    /// A number of the exchanger at work.
    pub(crate) fn operating(&self, part: OperatingPart) -> Option<SharedValue<'_>> {
        self.numbers.get(Name::Operating(part)).map(|(value, _)| value)
    }

    /// Whether it has an energy balance.
    pub fn balanced(&self) -> bool {
        self.numbers.names().any(|n| matches!(n, Name::Share(_)))
    }

    /// Whether the trial takes part in comparisons: it has no error and no reason to exclude it.
    pub fn usable(&self) -> bool {
        self.exclude.is_none() && self.sound
    }
}

/// A quantity that could not be given, why, and of which trials.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gap {
    /// Which quantity.
    pub quantity: Quantity,
    /// Things that are lacking, with the figures of the first trial.
    pub lacks: Vec<Lack>,
    /// The trials, by their number among all.
    pub trials: Vec<usize>,
}

impl Gap {
    /// Whether a trial lacks the quantity for the same reasons, though its figures may differ.
    pub(crate) fn matches(&self, missing: &Missing) -> bool {
        let alike = |(a, b): (&Lack, &Lack)| a.is_like(b);
        self.quantity == missing.quantity
            && self.lacks.len() == missing.lacks.len()
            && self.lacks.iter().zip(&missing.lacks).all(alike)
    }
}
