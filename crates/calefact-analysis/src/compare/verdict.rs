//! What can be said of a contrast: above, below, alike within a margin, or nothing.

use super::limits::MOST_ADVISED;
use super::outcome::{Outcome, PairTest, Question};
use super::page::Judged;
use super::sample_size::sample_size;
use super::scatter::SCATTER;
use crate::Quantity;
use crate::assumed::held;
use crate::result::{Contrast, ContrastKind, SampleSizeAdvice, VerdictChange, VerdictKind};
use calefact_stats::dist::normal_quantile;
use calefact_stats::equivalence::{Margin, two_one_sided};
use calefact_stats::{Estimate, UncertainValue};

/// The verdict on a pair at the `level` of its quantity: none where another column changes together with the levels; else by
/// the adjusted p-value, else by two one-sided tests against the margin the pipeline states. Likeness is tested for each of
/// the quantity's `pairs` at an even share of the level.
fn kind(question: Question<'_>, level: f64, outcome: &Outcome, pair: &PairTest) -> VerdictKind {
    if !pair.confounded.is_empty() {
        return VerdictKind::Confounded;
    }
    if pair.p_adjusted < level {
        return if pair.test.effect > 0.0 { VerdictKind::Above } else { VerdictKind::Below };
    }
    if pair.early {
        return VerdictKind::NotYet;
    }
    let means = means(outcome, pair);
    let margin = question.request.equivalence_margin.map(|share| margin(share, pair.kind, means));
    let level = level / pairs_like(outcome, pair);
    let share = question.plan.map_or(1.0, |plan| plan.look([]).share);
    let alike = margin.and_then(|m| two_one_sided(&pair.test, m)).is_some_and(|p| p < level * share);
    if alike { VerdictKind::Equivalent } else { VerdictKind::NoConclusion }
}

/// The verdict on a ratio: that of its difference, unless it is the ratio that is alike within its margin.
fn ratio_kind(question: Question<'_>, level: f64, outcome: &Outcome, pair: &PairTest) -> VerdictKind {
    let is_difference = |p: &&PairTest| p.kind == ContrastKind::Difference && p.same_levels(pair);
    let Some(difference) = outcome.pairs.iter().find(is_difference) else {
        return kind(question, level, outcome, pair);
    };
    match kind(question, level, outcome, difference) {
        VerdictKind::Equivalent | VerdictKind::NoConclusion => {
            let own = kind(question, level, outcome, &PairTest { p_adjusted: 1.0, ..pair.clone() });
            if own == VerdictKind::Equivalent { own } else { VerdictKind::NoConclusion }
        }
        settled => settled,
    }
}

/// Pairs of the quantity that are compared in the same way.
fn pairs_like(outcome: &Outcome, pair: &PairTest) -> f64 {
    outcome.pairs.iter().filter(|p| p.kind == pair.kind).count().max(1) as f64
}

/// The margin is a share of the larger mean; for a ratio, 1 - share and its inverse.
fn margin(share: f64, kind: ContrastKind, means: (f64, f64)) -> Margin {
    match kind {
        ContrastKind::Difference => {
            let m = share * means.0.abs().max(means.1.abs());
            Margin { lower: -m, upper: m }
        }
        ContrastKind::Ratio => Margin { lower: 1.0 - share, upper: 1.0 / (1.0 - share) },
    }
}

/// The values of a pair's means.
fn means(outcome: &Outcome, pair: &PairTest) -> (f64, f64) {
    (outcome.means[pair.a].value.value, outcome.means[pair.b].value.value)
}

/// The verdict on the difference of two levels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// First level.
    pub a: String,
    /// Second level.
    pub b: String,
    /// What can be said of a against b.
    pub verdict: VerdictKind,
}

/// Verdicts on the differences at the level of the quantity.
pub fn differences(question: Question<'_>, level: f64, outcome: &Outcome) -> Vec<Difference> {
    let pairs = outcome.pairs.iter().filter(|p| p.kind == ContrastKind::Difference);
    let name = |i: usize| outcome.means[i].level.clone();
    let difference = |p: &PairTest| {
        let verdict = kind(question, level, outcome, p);
        Difference { a: name(p.a), b: name(p.b), verdict }
    };
    pairs.map(difference).collect()
}

/// The change of one verdict; none where it stays.
pub fn change(
    question: Question<'_>,
    quantity: Quantity,
    before: &Difference,
    after: &[Difference],
) -> Option<VerdictChange> {
    let same_pair = |d: &&Difference| d.a == before.a && d.b == before.b;
    let to = after.iter().find(same_pair).map_or(VerdictKind::NoConclusion, |d| d.verdict);
    (to != before.verdict).then(|| VerdictChange {
        quantity,
        factor: question.request.factor.clone(),
        a: before.a.clone(),
        b: before.b.clone(),
        from: before.verdict,
        to,
    })
}

/// The contrasts of a quantity as they are reported; `main` says whether the quantity carries the verdict.
pub(crate) fn report(question: Question<'_>, outcome: &Outcome, judged: &Judged, main: bool) -> Vec<Contrast> {
    let pairs = outcome.pairs.iter().zip(&judged.pairs);
    pairs.map(|(pair, p)| contrast(question, outcome, (pair, *p), (judged.level, main))).collect()
}

fn contrast(
    question: Question<'_>,
    outcome: &Outcome,
    (pair, p_adjusted): (&PairTest, f64),
    (level, main): (f64, bool),
) -> Contrast {
    let (a, b) = (&outcome.means[pair.a], &outcome.means[pair.b]);
    let verdict = match pair.kind {
        ContrastKind::Difference => kind(question, level, outcome, pair),
        ContrastKind::Ratio => ratio_kind(question, level, outcome, pair),
    };
    let open = verdict == VerdictKind::NoConclusion && outcome.means.len() <= MOST_ADVISED;
    Contrast {
        quantity: outcome.quantity,
        factor: question.request.factor.clone(),
        a: a.level.clone(),
        b: b.level.clone(),
        n: (a.trials.len(), b.trials.len()),
        means: means(outcome, pair),
        kind: pair.kind,
        estimate: estimate(question, outcome.quantity, pair),
        assumed: held::inputs(&pair.shared, pair.test.std_uncertainty()),
        method: pair.method.clone(),
        p_value: pair.test.p_value,
        p_pairs: pair.p_adjusted,
        p_adjusted,
        adjustment: pair.adjustment,
        verdict,
        main,
        planned: question.request.planned,
        margin: question.request.equivalence_margin,
        sample_size: open.then(|| advice(question, level, outcome, pair)).flatten(),
        confounded: pair.confounded.clone(),
        traced: traced(pair),
    }
}

/// The value of a contrast with its parts by source. The scatter is what the shared errors leave of the uncertainty.
fn traced(pair: &PairTest) -> UncertainValue {
    let u = pair.test.effect_uncertainty;
    let shared: f64 = pair.shared.iter().map(|(_, part)| part * part).sum();
    let value = UncertainValue { value: pair.test.effect, parts: pair.shared.clone() };
    value.with(SCATTER, (u * u - shared).max(0.0).sqrt())
}

/// What would settle the pair, tested at its share of the quantity's level. An error that stays does not keep levels from
/// being shown alike where it is small beside their margin.
fn advice(question: Question<'_>, level: f64, outcome: &Outcome, pair: &PairTest) -> Option<SampleSizeAdvice> {
    let level = level / pairs_like(outcome, pair);
    let found = sample_size(pair, level, question.shared.book());
    found
        .filter(|advice| !matches!(advice, SampleSizeAdvice::Never(_)) || !may_be_alike(question, level, outcome, pair))
}

/// Whether the margin could hold the difference as seen and the error that no further trial reduces.
fn may_be_alike(question: Question<'_>, level: f64, outcome: &Outcome, pair: &PairTest) -> bool {
    let Some(share) = question.request.equivalence_margin else { return false };
    let Margin { lower, upper } = margin(share, pair.kind, means(outcome, pair));
    let reach = normal_quantile(1.0 - level) * pair.shared.iter().map(|(_, part)| part * part).sum::<f64>().sqrt();
    lower < pair.test.effect - reach && pair.test.effect + reach < upper
}

fn estimate(question: Question<'_>, quantity: Quantity, pair: &PairTest) -> Estimate {
    let unit = if pair.kind == ContrastKind::Ratio { "1".into() } else { quantity.unit_in(question.currency) };
    let u = pair.test.std_uncertainty();
    let mut estimate = Estimate::student(pair.test.value(), unit, u, pair.test.dof, question.confidence);
    estimate.interval = pair.interval;
    estimate
}
