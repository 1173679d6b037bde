//! Mean of trials that share sources of error: scatter shrinks with the number of trials, a shared error does not.
//!
//! For trial values x_i with signed parts p_i(k) of the shared sources k,
//! u^2(mean) = s^2 / n + sum over k of (mean of p_i(k))^2,
//! where s is the sample standard deviation of the x_i (JCGM 100:2008, 4.2 and 5.2; GUM H.1 and F.1.2.3 for the shared
//! part). What belongs to one trial alone is already seen in s and is not added again. A shared source whose parts
//! differ between trials is seen a little in s too, which errs on the wide side.

use super::summary::Summary;
use crate::contrast::cautious_dof;
use crate::dist::t_quantile;
use crate::estimate::Interval;
use crate::uncertain_value::{ErrorSources, Source, SourceInfo, UncertainValue};
use serde::Serialize;
use std::borrow::Borrow;
use std::collections::BTreeMap;

/// Mean of a group with its parts by source.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupMean {
    /// Bare values of the trials, summarised.
    pub summary: Summary,
    /// Mean with its shared parts and, from two trials on, its scatter as a source of its own.
    pub mean: UncertainValue,
    /// Effective degrees of freedom of the mean's uncertainty, see [`cautious_dof`].
    pub dof: f64,
    /// The scatter's source and what is known of it; absent for one trial.
    pub scatter: Option<(Source, SourceInfo)>,
}

impl GroupMean {
    /// Mean of `trials`; sources marked as shared in `book` keep their parts, all others are represented by the scatter,
    /// which is named `scatter_source`. A single trial keeps all its parts. `None` without trials.
    pub fn from_trials(
        trials: &[impl Borrow<UncertainValue>],
        book: &ErrorSources,
        scatter_source: impl Into<Source>,
    ) -> Option<Self> {
        if let [trial] = trials {
            return Some(Self::single(trial.borrow(), |source| book.get(source)));
        }
        let values: Vec<f64> = trials.iter().map(|t| t.borrow().value).collect();
        Self::repeated(&values, shared_parts(trials, book), book, scatter_source)
    }

    /// One trial: all its parts, no scatter.
    pub fn single<'b>(trial: &UncertainValue, lookup: impl Fn(&Source) -> Option<&'b SourceInfo>) -> Self {
        let summary = Summary::from_parts(1, trial.value, f64::NAN);
        Self { summary, mean: trial.clone(), dof: trial.dof_by(lookup), scatter: None }
    }

    /// Two trials or more whose shared parts the caller has averaged, in the order of their sources. `None` with fewer.
    pub fn repeated(
        values: &[f64],
        shared: Vec<(Source, f64)>,
        book: &ErrorSources,
        scatter_source: impl Into<Source>,
    ) -> Option<Self> {
        let summary = Summary::from_values(values)?;
        let (source, info) = (scatter_source.into(), SourceInfo::scatter(summary.scatter?.dof));
        let mean = UncertainValue { value: summary.mean, parts: shared }.with(source.clone(), summary.std_error()?);
        let mut group = Self { summary, mean, dof: f64::NAN, scatter: Some((source, info)) };
        group.dof = cautious_dof(group.mean.parts.iter().map(|(s, p)| (*p, group.source_dof(s, book))));
        Some(group)
    }

    /// Degrees of freedom of a source: this group's own scatter, else what `book` says, else infinite.
    pub(crate) fn source_dof(&self, source: &Source, book: &ErrorSources) -> f64 {
        match &self.scatter {
            Some((own, info)) if own == source => info.dof,
            _ => book.get(source).map_or(f64::INFINITY, |info| info.dof),
        }
    }

    /// Root sum of squares of the parts other than the scatter: what more trials would not remove.
    pub fn shared_uncertainty(&self) -> f64 {
        let own = self.scatter.as_ref().map(|(s, _)| s);
        self.mean.parts.iter().filter(|(s, _)| Some(s) != own).map(|(_, p)| p * p).sum::<f64>().sqrt()
    }

    /// Interval for the next trial's true value: u^2 = s^2 (1 + 1/n) + shared^2, with effective degrees of freedom.
    /// The scatter s holds the measurement errors of single trials too, so the interval is on the wide side.
    pub fn prediction_interval(&self, confidence: f64) -> Option<Interval> {
        let scatter = self.summary.scatter?;
        let own = scatter.sd * (1.0 + 1.0 / self.summary.n as f64).sqrt();
        let shared = self.shared_uncertainty();
        let dof = cautious_dof([(own, scatter.dof), (shared, f64::INFINITY)]);
        let half = t_quantile(0.5 + 0.5 * confidence, dof) * libm::hypot(own, shared);
        Some(Interval { lower: self.mean.value - half, upper: self.mean.value + half, confidence })
    }
}

/// The mean of the trials' shared parts, source by source.
fn shared_parts(trials: &[impl Borrow<UncertainValue>], book: &ErrorSources) -> Vec<(Source, f64)> {
    let weight = 1.0 / trials.len() as f64;
    let mut sums: BTreeMap<&Source, f64> = BTreeMap::new();
    for (source, part) in trials.iter().flat_map(|t| &t.borrow().parts) {
        if book.get(source).is_some_and(|info| info.shared) {
            *sums.entry(source).or_insert(0.0) += weight * part;
        }
    }
    sums.into_iter().map(|(s, p)| (s.clone(), p)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::uncertain_value::Shape;
    use rand::SeedableRng;
    use rand_distr::{Distribution, StandardNormal};
    use rand_pcg::Pcg64;

    fn book() -> ErrorSources {
        let info = |shared| SourceInfo { shared, dof: f64::INFINITY, shape: Shape::Normal };
        ErrorSources::from([("offset".into(), info(true)), ("own".into(), info(false))])
    }

    fn trials(values: &[f64]) -> Vec<UncertainValue> {
        values.iter().map(|v| UncertainValue::new(*v, "offset", 0.06).with("own", 5.0)).collect()
    }

    /// Half width of the 95 % interval of the mean.
    fn half_width(group: &GroupMean) -> f64 {
        t_quantile(0.975, group.dof) * group.mean.std_uncertainty()
    }

    /// Closed form: values 1, 2, 3 give s = 1, so u^2 = 1/3 + 0.06^2; the large part of a single trial is not counted.
    #[test]
    fn a_shared_part_does_not_shrink_and_an_own_part_is_not_counted_twice() {
        let g = GroupMean::from_trials(&trials(&[1.0, 2.0, 3.0]), &book(), "scatter").unwrap();
        assert!((g.mean.std_uncertainty() - (1.0f64 / 3.0 + 0.0036).sqrt()).abs() < 1e-12);
        assert!((g.shared_uncertainty() - 0.06).abs() < 1e-12);
        let enlarged = t_quantile(0.975, 2.0) / t_quantile(0.975, f64::INFINITY) / 3.0;
        let rule = 2.0 * (1.0 + 0.0036 / enlarged) * (1.0 + 0.0036 / enlarged);
        let by_rule = t_quantile(0.975, rule) * g.mean.std_uncertainty();
        let scatter_alone = t_quantile(0.975, 2.0) / 3.0f64.sqrt();
        assert!((half_width(&g) - by_rule.max(scatter_alone)).abs() < 1e-9);
    }

    #[test]
    fn a_single_trial_keeps_all_its_parts_and_has_no_scatter() {
        let g = GroupMean::from_trials(&trials(&[1.0]), &book(), "scatter").unwrap();
        assert!(g.scatter.is_none() && g.prediction_interval(0.95).is_none());
        assert!((g.mean.std_uncertainty() - 25.0036f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn the_next_trial_is_less_sure_than_the_mean() {
        let g = GroupMean::from_trials(&trials(&[1.0, 2.0, 3.0]), &book(), "scatter").unwrap();
        let own = 4.0 / 3.0f64;
        let dof = cautious_dof([(own.sqrt(), 2.0), (0.06, f64::INFINITY)]);
        let expected = t_quantile(0.975, dof) * (own + 0.0036f64).sqrt();
        assert!((g.prediction_interval(0.95).unwrap().half_width() - expected).abs() < 1e-9);
    }

    /// Simulation with known truth: mean 0, scatter 1, shared error 0, 0.3 or 1 of the mean's scatter. Monte Carlo error of a
    /// coverage of 95 % from 4000 runs is 0.35 %. Two trials are on the wide side where the shared error equals the scatter:
    /// there the rule that a known error never tightens an interval is at work.
    #[test]
    fn intervals_cover_what_they_promise() {
        let mut rng = Pcg64::seed_from_u64(20_240_917);
        for (n, lowest, highest) in [(2, 0.915, 0.985), (3, 0.93, 0.965), (5, 0.935, 0.965)] {
            for ratio in [0.0, 0.3, 1.0] {
                let (mean, next) = coverage(&mut rng, n, ratio);
                assert!((lowest..highest).contains(&mean), "mean, n {n} ratio {ratio}: {mean}");
                assert!((lowest..highest).contains(&next), "next, n {n} ratio {ratio}: {next}");
            }
        }
    }

    fn coverage(rng: &mut Pcg64, n: usize, ratio: f64) -> (f64, f64) {
        let shared = ratio / (n as f64).sqrt();
        let info = SourceInfo { shared: true, dof: f64::INFINITY, shape: Shape::Normal };
        let book = ErrorSources::from([("offset".into(), info)]);
        let runs = 4000;
        let (mut mean, mut next) = (0, 0);
        for _ in 0..runs {
            let mut normal = || -> f64 { StandardNormal.sample(rng) };
            let offset = shared * normal();
            let trials: Vec<UncertainValue> =
                (0..n).map(|_| UncertainValue::new(offset + normal(), "offset", shared)).collect();
            let g = GroupMean::from_trials(&trials, &book, "scatter").unwrap();
            mean += usize::from(g.mean.value.abs() <= half_width(&g));
            next += usize::from(g.prediction_interval(0.95).unwrap().contains(normal()));
        }
        (mean as f64 / f64::from(runs), next as f64 / f64::from(runs))
    }
}
