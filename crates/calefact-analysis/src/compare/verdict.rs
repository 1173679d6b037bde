//! What can be said of a contrast: above, below, alike within a margin, or nothing.

use super::outcome::{Outcome, PairTest, Question};
use super::sample_size::SampleSizeAdvice;
use super::sentence;
use crate::Quantity;
use crate::result::{Contrast, ContrastKind, VerdictKind};
use calefact_stats::Estimate;
use calefact_stats::equivalence::{Margin, two_one_sided};

/// The verdict on a pair: by the adjusted p-value, else by two one-sided tests against the margin the pipeline states.
pub fn kind(question: Question<'_>, pair: &PairTest, means: (f64, f64)) -> VerdictKind {
    let alpha = 1.0 - question.level;
    if pair.p_adjusted < alpha {
        return if pair.test.effect > 0.0 { VerdictKind::Above } else { VerdictKind::Below };
    }
    let margin = question.request.equivalence_margin.map(|share| margin(share, pair.kind, means));
    let alike = margin.and_then(|m| two_one_sided(&pair.test, m)).is_some_and(|p| p < alpha);
    if alike { VerdictKind::Equivalent } else { VerdictKind::NoConclusion }
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
pub fn means(outcome: &Outcome, pair: &PairTest) -> (f64, f64) {
    (outcome.means[pair.a].value.value, outcome.means[pair.b].value.value)
}

/// Verdicts on the differences, by level names.
pub fn differences(question: Question<'_>, outcome: &Outcome) -> Vec<(String, String, VerdictKind)> {
    let pairs = outcome.pairs.iter().filter(|p| p.kind == ContrastKind::Difference);
    pairs
        .map(|p| {
            let name = |i: usize| outcome.means[i].level.clone();
            (name(p.a), name(p.b), kind(question, p, means(outcome, p)))
        })
        .collect()
}

/// The contrast as it is reported.
pub fn report(question: Question<'_>, outcome: &Outcome, pair: &PairTest) -> Contrast {
    let (a, b) = (&outcome.means[pair.a], &outcome.means[pair.b]);
    let means = means(outcome, pair);
    let verdict = kind(question, pair, means);
    let family = outcome.pairs.iter().filter(|p| p.kind == pair.kind).count().max(1) as f64;
    let outlook = match verdict {
        VerdictKind::NoConclusion => {
            SampleSizeAdvice::of(pair, (1.0 - question.level) / family, question.request.kind, question.shared.book())
        }
        _ => SampleSizeAdvice::None,
    };
    let mut contrast = Contrast {
        quantity: outcome.quantity,
        factor: question.request.factor.clone(),
        a: a.level.clone(),
        b: b.level.clone(),
        n: (a.trials.len(), b.trials.len()),
        kind: pair.kind,
        estimate: estimate(outcome.quantity, pair, question.level),
        p_value: pair.test.p_value,
        p_adjusted: pair.p_adjusted,
        adjustment: pair.adjustment,
        verdict,
        sentence: String::new(),
        more_trials: outlook.more(),
    };
    contrast.sentence = sentence::of(&contrast, question.request, means, &outlook);
    contrast
}

fn estimate(quantity: Quantity, pair: &PairTest, level: f64) -> Estimate {
    let unit = if pair.kind == ContrastKind::Ratio { "1" } else { quantity.unit() };
    let u = pair.test.std_uncertainty();
    let mut estimate = Estimate::student(pair.test.value(), unit, u, pair.test.dof, level, pair.method.clone());
    estimate.interval = pair.interval;
    estimate
}
