//! One quantity of the chosen trials: values, levels, and the errors that trials share.

use super::shared::{SharedSources, summed};
use crate::Quantity;
use crate::result::TrialResult;
use crate::settings::ComparisonRequest;
use calefact_stats::{Source, Traced};
use std::sync::Arc;

/// Values of one quantity, trial by trial in register order.
#[derive(Debug, Clone)]
pub struct Sample<'t> {
    /// Which quantity.
    pub quantity: Quantity,
    /// Trials that have it.
    pub trials: Vec<&'t TrialResult>,
    /// Their values.
    pub values: Vec<&'t Traced>,
    /// Level of the factor of each.
    pub labels: Vec<&'t str>,
    /// Shared sources by number, in the order of their names.
    sources: Arc<[Source]>,
    /// Parts of the shared sources of each trial, by number.
    parts: Vec<Vec<(usize, f64)>>,
}

impl<'t> Sample<'t> {
    /// The trials among `chosen` that have the quantity; `shared` holds the sources common to trials.
    pub fn of(
        request: &ComparisonRequest,
        chosen: &[&'t TrialResult],
        quantity: Quantity,
        shared: &SharedSources,
    ) -> Self {
        let sources = shared.names();
        let mut sample = Self { quantity, trials: vec![], values: vec![], labels: vec![], sources, parts: vec![] };
        for &trial in chosen {
            let (Some(estimate), Some(label)) = (trial.get(quantity), trial.row.level(&request.factor)) else {
                continue;
            };
            if !estimate.traced.value.is_finite() {
                continue;
            }
            sample.trials.push(trial);
            sample.values.push(&estimate.traced);
            sample.labels.push(label);
            sample.parts.push(shared.parts(&estimate.traced).collect());
        }
        sample
    }

    /// The same with some of the trials only.
    #[must_use]
    pub fn keep(&self, rows: &[usize]) -> Self {
        Self {
            quantity: self.quantity,
            trials: rows.iter().map(|&i| self.trials[i]).collect(),
            values: rows.iter().map(|&i| self.values[i]).collect(),
            labels: rows.iter().map(|&i| self.labels[i]).collect(),
            sources: self.sources.clone(),
            parts: rows.iter().map(|&i| self.parts[i].clone()).collect(),
        }
    }

    /// Number of trials.
    pub fn len(&self) -> usize {
        self.trials.len()
    }

    /// Whether no trial has the quantity.
    pub fn is_empty(&self) -> bool {
        self.trials.is_empty()
    }

    /// Levels in the given order that some trial has.
    pub fn levels(&self, order: &[String]) -> Vec<String> {
        order.iter().filter(|level| self.labels.contains(&level.as_str())).cloned().collect()
    }

    /// Trials of a level.
    pub fn rows_of(&self, level: &str) -> Vec<usize> {
        (0..self.len()).filter(|&i| self.labels[i] == level).collect()
    }

    /// Ids of trials.
    pub fn ids(&self, rows: &[usize]) -> Vec<String> {
        rows.iter().map(|&i| self.trials[i].row.trial.clone()).collect()
    }

    /// Bare values.
    pub fn bare(&self) -> Vec<f64> {
        self.values.iter().map(|v| v.value).collect()
    }

    /// Parts of the shared sources in sum of w x over (trial, w): sum of w times the trials' parts, source by source.
    pub fn shared_parts(&self, weights: impl IntoIterator<Item = (usize, f64)>) -> Vec<(Source, f64)> {
        let weighted =
            |(trial, weight): (usize, f64)| self.parts[trial].iter().map(move |(s, part)| (*s, weight * part));
        summed(&self.sources, weights.into_iter().flat_map(weighted))
    }
}
