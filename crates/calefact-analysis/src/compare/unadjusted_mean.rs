//! The mean of one level without adjustment, by equal weights or by a random-effects combination.

use super::groups::title;
use super::outcome::{LevelMean, Question};
use super::sample::Sample;
use crate::Quantity;
use crate::settings::{Combine, ComparisonRequest};
use crate::shared::SharedValue;
use calefact_stats::contrast::cautious_dof;
use calefact_stats::dist::t_quantile;
use calefact_stats::group::{GroupMean, Summary};
use calefact_stats::pooling::{IntervalMethod, PooledValue, Study, Tau2Method, pool_values, tau2_interval};
use calefact_stats::{Interval, Source, UncertainValue};
use std::sync::Arc;

/// A level's mean in the two forms that are needed: for the tables, and for Welch's test.
#[derive(Debug, Clone)]
pub struct GroupedMean {
    /// For the tables.
    pub mean: LevelMean,
    /// For the test.
    pub group: GroupMean,
}

/// Name of the source that stands for a level's scatter.
pub fn scatter_name(request: &ComparisonRequest, quantity: Quantity, level: &str) -> String {
    format!("scatter:{}:{level}:{}", title(request), quantity.name())
}

impl GroupedMean {
    /// Mean of the trials of `level`; none without trials.
    pub fn of(question: Question<'_>, sample: &Sample<'_>, level: &str) -> Option<Self> {
        let rows = sample.rows_of(level);
        let source: Source = super::unadjusted::scatter_of(question, sample, level);
        if let Some(pooled) = pool(question, sample, &rows, &source) {
            return Some(pooled.finish(question, sample, &rows, level));
        }
        let values: Vec<SharedValue<'_>> = rows.iter().map(|&i| sample.values[i]).collect();
        let group = question.shared.mean(&values, &sample.trials[*rows.first()?].trial, source)?;
        Some(Self::plain(group, question.level, level, sample.ids(&rows)))
    }

    fn plain(group: GroupMean, interval_level: f64, level: &str, trials: Arc<[Arc<str>]>) -> Self {
        let method = if trials.len() == 1 {
            "one trial: measurement only, no repeat"
        } else {
            "mean, t interval, shared errors kept"
        };
        let mean = LevelMean {
            level: level.to_owned(),
            trials,
            value: group.mean.clone(),
            dof: group.dof,
            sd: group.summary.scatter.map(|s| s.sd),
            sd_interval: group.summary.sd_interval(interval_level),
            predict: group.prediction_interval(interval_level),
            method: method.into(),
            scatter: group.scatter.clone(),
        };
        Self { mean, group }
    }
}

/// A random-effects combination on its way to a mean.
struct Combined {
    pooled: PooledValue,
    studies: Vec<Study>,
    method: &'static str,
}

/// Random-effects combination where asked for and possible: two trials or more, each with an error of its own. Two trials
/// cannot tell their weights; they are averaged with t of one degree of freedom.
fn pool(question: Question<'_>, sample: &Sample<'_>, rows: &[usize], source: &Source) -> Option<Combined> {
    let (tau2, name) = match question.combine {
        Combine::Mean => return None,
        Combine::Reml => (Tau2Method::Reml, "random effects (REML), Hartung-Knapp-Sidik-Jonkman interval"),
        Combine::PauleMandel => {
            (Tau2Method::PauleMandel, "random effects (Paule-Mandel), Hartung-Knapp-Sidik-Jonkman interval")
        }
    };
    let (interval, method) = match rows.len() {
        2 => (IntervalMethod::Unweighted, "two trials: unweighted mean, t interval"),
        _ => (IntervalMethod::HartungKnapp, name),
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
        let half = t_quantile(0.5 + 0.5 * question.level, next) * libm::hypot(spread, shared);
        let around = Interval { lower: own.mean - half, upper: own.mean + half, confidence: question.level };
        let mut out = GroupedMean::plain(group, question.level, level, sample.ids(rows));
        out.mean.sd = Some(tau);
        out.mean.sd_interval = tau2_interval(&studies, question.level).ok().map(root);
        out.mean.predict = Some(around);
        method.clone_into(&mut out.mean.method);
        out
    }
}
