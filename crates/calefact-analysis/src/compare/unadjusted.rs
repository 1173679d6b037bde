//! Comparison without adjustment: means by level, Welch's test of every pair, Holm over the pairs.
//!
//! Welch with Holm and not Games-Howell: Holm keeps its promise whatever the pairs have in common, shared instrument
//! errors included, while the studentized range presumes that nothing but scatter is estimated; with two levels, the usual
//! case, the two are the same test, and at 2 or 3 burns a level Games-Howell's intervals are known to be narrow.

use super::borrowed::lend_scatter;
use super::limits::MOST_LEVELS;
use super::outcome::{Depth, LevelMean, PairTest, Question};
use super::sample::Sample;
use super::unadjusted_mean::GroupedMean;
use crate::result::{Adjustment, ContrastKind, Method};
use calefact_stats::contrast::Contrast as Test;
use calefact_stats::influence::{Outlyingness, studentized};
use calefact_stats::power::Arm;
use calefact_stats::{Source, UncertainValue, holm, welch};
use std::sync::Arc;

/// Means and pairs.
pub(crate) fn analyse(
    question: Question<'_>,
    sample: &Sample<'_>,
    order: &[String],
    depth: Depth,
) -> (Vec<LevelMean>, Vec<PairTest>) {
    let groups = groups(question, sample, order);
    let kinds: &[ContrastKind] = match depth {
        Depth::Full => &[ContrastKind::Difference, ContrastKind::Ratio],
        Depth::Verdicts => &[ContrastKind::Difference],
    };
    let pairs = kinds.iter().flat_map(|&kind| family(question, kind, &groups)).collect();
    (groups.into_iter().map(|g| g.mean).collect(), pairs)
}

/// Means alone.
pub(crate) fn means(question: Question<'_>, sample: &Sample<'_>, order: &[String]) -> Vec<LevelMean> {
    groups(question, sample, order).into_iter().map(|g| g.mean).collect()
}

fn groups(question: Question<'_>, sample: &Sample<'_>, order: &[String]) -> Vec<GroupedMean> {
    let levels = sample.levels(order);
    let mut groups: Vec<GroupedMean> =
        levels.iter().filter_map(|level| GroupedMean::new(question, sample, level)).collect();
    lend_scatter(question, sample.quantity, &mut groups);
    groups
}

/// All pairs of one kind: one Holm family. Pairs with a level of one trial are not tested.
fn family(question: Question<'_>, kind: ContrastKind, groups: &[GroupedMean]) -> Vec<PairTest> {
    if groups.len() > MOST_LEVELS {
        return Vec::new();
    }
    let test_kind = kind.into();
    let indices = (0..groups.len()).flat_map(|a| (a + 1..groups.len()).map(move |b| (a, b)));
    let tested: Vec<(usize, usize, Test)> = indices
        .filter_map(|(a, b)| {
            let (x, y) = (&groups[a].group, &groups[b].group);
            welch::between_groups(test_kind, x, y, question.shared.book(), question.confidence).map(|test| (a, b, test))
        })
        .collect();
    let tests: Vec<Test> = tested.iter().map(|t| t.2).collect();
    let raw: Vec<f64> = tests.iter().map(|t| t.p_value).collect();
    let adjusted = holm::adjusted_p(&raw);
    let intervals = holm::intervals(&tests, question.confidence);
    let pair = |(((a, b, test), p_adjusted), interval)| PairTest {
        a,
        b,
        kind,
        test,
        p_adjusted,
        early: false,
        interval,
        arms: (arm(&groups[a]), arm(&groups[b])),
        shared: shared_parts(kind, &groups[a], &groups[b]),
        adjustment: Adjustment::Holm,
        method: Method::Welch,
        confounded: Vec::new(),
    };
    tested.into_iter().zip(adjusted).zip(intervals).map(pair).collect()
}

/// Trials and their scatter, as the standard deviation that gives the mean's own uncertainty.
fn arm(group: &GroupedMean) -> Arm {
    let n = group.mean.trials.len();
    let own = group.mean.scatter.as_ref().map_or(0.0, |(source, _)| group.mean.value.part(source));
    Arm { n, sd: own * (n as f64).sqrt() }
}

fn shared_parts(kind: ContrastKind, a: &GroupedMean, b: &GroupedMean) -> Vec<(Source, f64)> {
    let (x, y) = (&a.mean.value, &b.mean.value);
    let (wx, wy) = match kind {
        ContrastKind::Difference => (1.0, -1.0),
        ContrastKind::Ratio => (1.0 / x.value, -1.0 / y.value),
    };
    let own = |source: &Source| [a, b].iter().any(|g| g.mean.scatter.as_ref().is_some_and(|(s, _)| s == source));
    let mut parts = UncertainValue::combine(&[(wx, x), (wy, y)]).parts;
    parts.retain(|(source, _)| !own(source));
    parts
}

/// Trials that are odd beside the others of their level, scatter taken as common to the levels.
pub(crate) fn odd(sample: &Sample<'_>) -> Vec<(Arc<str>, Outlyingness)> {
    let mut residuals = vec![0.0; sample.len()];
    let mut leverage = vec![1.0; sample.len()];
    let mut levels: Vec<&str> = sample.labels.clone();
    levels.sort_unstable();
    levels.dedup();
    for level in &levels {
        let rows = sample.rows_of(level);
        let mean = rows.iter().map(|&i| sample.values[i].value).sum::<f64>() / rows.len() as f64;
        for &i in &rows {
            residuals[i] = sample.values[i].value - mean;
            leverage[i] = 1.0 / rows.len() as f64;
        }
    }
    let found = studentized(&residuals, &leverage, levels.len());
    sample.odd(&found, levels.len())
}
