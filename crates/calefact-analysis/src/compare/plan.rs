//! Looking at results before the planned number of trials is reached, without fooling oneself.
//!
//! Of the error that the verdicts of a comparison may have, a fifth is spent evenly over all looks before the planned number
//! and four fifths at the planned number: the bound of Haybittle (1971, Br. J. Radiol. 44:793) and Peto et al. (1976, Br. J.
//! Cancer 34:585), with shares that add up, so that the sum of the errors of all looks is a bound whatever the looks have in
//! common (Bonferroni; a spending function in the sense of Lan & DeMets 1983, Biometrika 70:659). A look is one after each
//! trial of any level from two of each on. Trials beyond the planned number have no part in the comparison.

use crate::result::TrialSummary;
use crate::settings::ComparisonRequest;
use std::collections::{BTreeMap, BTreeSet};

/// Share of the error that is spent before the planned number.
const EARLY: f64 = 0.2;

/// Share of the error that is left for the planned number.
pub(crate) const LAST: f64 = 1.0 - EARLY;

/// Where a comparison stands in its plan.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Plan {
    /// Levels that have fewer trials than planned.
    short: BTreeSet<String>,
    /// Share of the error of one look before the planned number.
    early: f64,
    /// Share at the planned number.
    last: f64,
}

/// Verdict that a plan allows of a difference between two levels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Look {
    /// Share of the error that this look may spend.
    pub(crate) share: f64,
    /// Whether it comes before the planned number.
    pub(crate) early: bool,
}

impl Plan {
    /// Of the trials that were chosen; none where the request plans no number.
    pub fn new(request: &ComparisonRequest, chosen: &[&TrialSummary]) -> Option<Self> {
        let planned = request.planned? as usize;
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for level in chosen.iter().filter_map(|t| t.level(&request.factor)) {
            *counts.entry(level).or_insert(0) += 1;
        }
        let short = counts.iter().filter(|(_, n)| **n < planned).map(|(level, _)| (*level).to_owned()).collect();
        let looks = counts.len().max(2) * planned.saturating_sub(2);
        let (early, last) = if looks == 0 { (0.0, 1.0) } else { (EARLY / looks as f64, LAST) };
        Some(Self { short, early, last })
    }

    /// The look at some levels.
    pub(crate) fn look<'l>(&self, levels: impl IntoIterator<Item = &'l str>) -> Look {
        let early = levels.into_iter().any(|level| self.short.contains(level));
        Look { share: if early { self.early } else { self.last }, early }
    }
}

/// The first trials of each level, as many as the request plans, and the number of those beyond.
pub(crate) fn within<'t>(request: &ComparisonRequest, chosen: Vec<&'t TrialSummary>) -> (Vec<&'t TrialSummary>, usize) {
    let Some(planned) = request.planned else { return (chosen, 0) };
    let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
    let before = chosen.len();
    let mut kept = chosen;
    kept.retain(|trial| {
        let count = counts.entry(trial.level(&request.factor).unwrap_or_default()).or_insert(0);
        *count += 1;
        *count <= planned
    });
    let beyond = before - kept.len();
    (kept, beyond)
}
