//! One quantity of the chosen trials: values, levels, and the errors that trials share.

use crate::Quantity;
use crate::result::TrialSummary;
use crate::settings::ComparisonRequest;
use crate::shared::SharedValue;
use calefact_stats::influence::Outlyingness;
use std::sync::Arc;

/// p below which a trial counts as odd.
const ODD: f64 = 0.05;
/// Degrees of freedom below which the scatter of the others is too little known to call any trial odd.
const LEAST_FREEDOM: usize = 3;

/// Values of one quantity, trial by trial in register order.
#[derive(Debug, Clone)]
pub(crate) struct Sample<'t> {
    /// Which quantity.
    pub(crate) quantity: Quantity,
    /// Trials that have it.
    pub(crate) trials: Vec<&'t TrialSummary>,
    /// Their values.
    pub(crate) values: Vec<SharedValue<'t>>,
    /// Level of the factor of each.
    pub(crate) labels: Vec<&'t str>,
}

impl<'t> Sample<'t> {
    /// The trials among `chosen` that have the quantity.
    pub(crate) fn new(request: &ComparisonRequest, chosen: &[&'t TrialSummary], quantity: Quantity) -> Self {
        let mut sample = Self { quantity, trials: vec![], values: vec![], labels: vec![] };
        for &trial in chosen {
            let (Some(value), Some(label)) = (trial.get(quantity), trial.level(&request.factor)) else {
                continue;
            };
            if !value.value.is_finite() {
                continue;
            }
            sample.trials.push(trial);
            sample.values.push(value);
            sample.labels.push(label);
        }
        sample
    }

    /// The same with some of the trials only.
    #[must_use]
    pub(crate) fn keep(&self, rows: &[usize]) -> Self {
        Self {
            quantity: self.quantity,
            trials: rows.iter().map(|&i| self.trials[i]).collect(),
            values: rows.iter().map(|&i| self.values[i]).collect(),
            labels: rows.iter().map(|&i| self.labels[i]).collect(),
        }
    }

    /// Number of trials.
    pub(crate) fn len(&self) -> usize {
        self.trials.len()
    }

    /// Whether no trial has the quantity.
    pub(crate) fn is_empty(&self) -> bool {
        self.trials.is_empty()
    }

    /// Levels in the given order that some trial has.
    pub(crate) fn levels(&self, order: &[String]) -> Vec<String> {
        order.iter().filter(|level| self.labels.contains(&level.as_str())).cloned().collect()
    }

    /// Trials of a level.
    pub(crate) fn rows_of(&self, level: &str) -> Vec<usize> {
        (0..self.len()).filter(|&i| self.labels[i] == level).collect()
    }

    /// Trials that count as odd, by what was `found` of each beside a model of so many `effects`.
    pub(crate) fn odd(&self, found: &[Option<Outlyingness>], effects: usize) -> Vec<(Arc<str>, Outlyingness)> {
        if self.len() < effects + 1 + LEAST_FREEDOM {
            return Vec::new();
        }
        let odd = |(trial, found): (&&TrialSummary, &Option<Outlyingness>)| {
            found.filter(|f| f.p_value < ODD && f.studentized.is_finite()).map(|f| (trial.trial.clone(), f))
        };
        self.trials.iter().zip(found).filter_map(odd).collect()
    }

    /// Ids of trials.
    pub(crate) fn ids(&self, rows: &[usize]) -> Arc<[Arc<str>]> {
        rows.iter().map(|&i| self.trials[i].trial.clone()).collect()
    }

    /// Bare values.
    pub(crate) fn bare(&self) -> Vec<f64> {
        self.values.iter().map(|v| v.value).collect()
    }
}
