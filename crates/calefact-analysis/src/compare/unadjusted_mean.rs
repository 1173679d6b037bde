//! The mean of one level without adjustment, by equal weights or by a random-effects combination.

use super::outcome::{LevelMean, Question};
use super::sample::Sample;
use super::scatter::scatter_source;
use crate::result::Method;
use crate::settings::Combine;
use crate::shared::SharedValue;
use calefact_stats::contrast::cautious_dof;
use calefact_stats::dist::t_quantile;
use calefact_stats::group::{GroupMean, Summary};
use calefact_stats::pooling::{IntervalMethod, PooledValue, Study, Tau2Method, pool_values, tau2_interval};
use calefact_stats::{Interval, Source, UncertainValue};
use std::sync::Arc;

/// A level's mean in the two forms that are needed: for the tables, and for Welch's test.
#[derive(Debug, Clone)]
pub(crate) struct GroupedMean {
    /// For the tables.
    pub(crate) mean: LevelMean,
    /// For the test.
    pub(crate) group: GroupMean,
}

impl GroupedMean {
    /// Mean of the trials of `level`; none without trials.
    pub(crate) fn new(question: Question<'_>, sample: &Sample<'_>, level: &str) -> Option<Self> {
        let rows = sample.rows_of(level);
        let source: Source = scatter_source(question.request, sample.quantity, level);
        if let Some(pooled) = pool(question, sample, &rows, &source) {
            return Some(pooled.finish(question, sample, &rows, level));
        }
        let values: Vec<SharedValue<'_>> = rows.iter().map(|&i| sample.values[i]).collect();
        let group = question.shared.mean(&values, &sample.trials[*rows.first()?].trial, source)?;
        Some(Self::plain(group, question.confidence, level, sample.ids(&rows)))
    }

    fn plain(group: GroupMean, confidence: f64, level: &str, trials: Arc<[Arc<str>]>) -> Self {
        let method = if trials.len() == 1 { Method::SingleTrial } else { Method::Mean };
        let mean = LevelMean {
            level: level.to_owned(),
            trials,
            value: group.mean.clone(),
            dof: group.dof,
            sd: group.summary.scatter.map(|s| s.sd),
            sd_interval: group.summary.sd_interval(confidence),
            predict: group.prediction_interval(confidence),
            method,
            scatter: group.scatter.clone(),
        };
        Self { mean, group }
    }
}

/// A random-effects combination on its way to a mean.
struct Combined {
    pooled: PooledValue,
    studies: Vec<Study>,
    method: Method,
}

/// Random-effects combination where asked for and possible: two trials or more, each with an error of its own. Two trials
/// cannot tell their weights; they are averaged with t of one degree of freedom.
fn pool(question: Question<'_>, sample: &Sample<'_>, rows: &[usize], source: &Source) -> Option<Combined> {
    let (tau2, method) = match question.combine {
        Combine::Mean => return None,
        Combine::Reml => (Tau2Method::Reml, Method::Reml),
        Combine::PauleMandel => (Tau2Method::PauleMandel, Method::PauleMandel),
    };
    let (interval, method) = match rows.len() {
        2 => (IntervalMethod::Unweighted, Method::TwoTrials),
        _ => (IntervalMethod::HartungKnapp, method),
    };
    let traced = |&i: &usize| question.shared.traced(&sample.trials[i].trial, sample.values[i]);
    let trials: Vec<UncertainValue> = rows.iter().map(traced).collect();
    let pooled = pool_values(&trials, question.shared.book(), source.clone(), tau2, interval).ok()?;
    let study = |&i: &usize| Study { value: sample.values[i].value, variance: sample.values[i].own.powi(2) };
    let studies = rows.iter().map(study).collect();
    Some(Combined { pooled, studies, method })
}

impl Combined {
    fn finish(self, question: Question<'_>, sample: &Sample<'_>, rows: &[usize], level: &str) -> GroupedMean {
        let Self { pooled: PooledValue { own, mean, dof, scatter }, studies, method } = self;
        let values: Vec<f64> = rows.iter().map(|&i| sample.values[i].value).collect();
        let summary = Summary::from_values(&values).unwrap_or(Summary { n: 0, mean: own.mean, scatter: None });
        let group = GroupMean { summary, mean, dof, scatter: Some(scatter) };
        let tau = own.tau2.sqrt();
        let root = |i: Interval| Interval { lower: i.lower.sqrt(), upper: i.upper.sqrt(), confidence: i.confidence };
        let spread = libm::hypot(tau, own.std_uncertainty);
        let shared = group.shared_uncertainty();
        let next = cautious_dof([(spread, own.dof), (shared, f64::INFINITY)]);
        let half = t_quantile(0.5 + 0.5 * question.confidence, next) * libm::hypot(spread, shared);
        let around = Interval { lower: own.mean - half, upper: own.mean + half, confidence: question.confidence };
        let mut out = GroupedMean::plain(group, question.confidence, level, sample.ids(rows));
        out.mean.sd = Some(tau);
        out.mean.sd_interval = tau2_interval(&studies, question.confidence).ok().map(root);
        out.mean.predict = Some(around);
        out.mean.method = method;
        out
    }
}
