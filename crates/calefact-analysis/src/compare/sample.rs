//! One quantity of the chosen trials: values, levels, and the errors that trials share.

use crate::Quantity;
use crate::result::TrialResult;
use crate::settings::ComparisonRequest;
use calefact_stats::{Source, SourceBook, Traced};
use std::collections::BTreeMap;

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
    /// Shared sources, numbered.
    sources: Vec<Source>,
    /// Parts of the shared sources of each trial, by number.
    parts: Vec<Vec<(usize, f64)>>,
}

impl<'t> Sample<'t> {
    /// The trials among `chosen` that have the quantity; `shared` holds the sources common to trials.
    pub fn of(
        request: &ComparisonRequest,
        chosen: &[&'t TrialResult],
        quantity: Quantity,
        shared: &SourceBook,
    ) -> Self {
        let mut numbers: BTreeMap<Source, usize> = BTreeMap::new();
        let mut sample =
            Self { quantity, trials: vec![], values: vec![], labels: vec![], sources: vec![], parts: vec![] };
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
            let common = estimate.traced.parts.iter().filter(|(source, _)| shared.contains_key(source));
            let numbered = common.map(|(source, part)| {
                let next = numbers.len();
                (*numbers.entry(source.clone()).or_insert(next), *part)
            });
            sample.parts.push(numbered.collect());
        }
        sample.sources = vec![Source::from(""); numbers.len()];
        for (source, number) in numbers {
            sample.sources[number] = source;
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
        let mut sums = vec![0.0; self.sources.len()];
        for (trial, weight) in weights {
            for &(source, part) in &self.parts[trial] {
                sums[source] += weight * part;
            }
        }
        let mut parts: Vec<(Source, f64)> =
            self.sources.iter().cloned().zip(sums).filter(|(_, part)| *part != 0.0).collect();
        parts.sort_by(|a, b| a.0.cmp(&b.0));
        parts
    }
}
