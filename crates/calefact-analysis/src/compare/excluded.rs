//! The result with excluded trials put back: leaving a trial out needs a reason, and shows its effect.

use super::groups::choose_with_excluded;
use super::one_quantity::analyse;
use super::outcome::{Depth, Outcome, Question};
use super::page::Judged;
use super::plan;
use super::verdict::{change, differences};
use crate::result::{Excluded, MeanChange, Remark, TrialSummary, VerdictChange};

/// A remark where the register excludes trials of this comparison's levels; none otherwise.
pub(crate) fn remark(
    question: Question<'_>,
    trials: &[TrialSummary],
    order: &[String],
    (outcomes, judged): (&[Outcome], &[Judged]),
) -> Option<Remark> {
    let (whole, _) = plan::within(question.request, choose_with_excluded(question.request, trials));
    let of_known_level = |t: &TrialSummary| {
        let level = t.level(&question.request.factor);
        order.iter().any(|known| level == Some(known))
    };
    let reason = |t: &&TrialSummary| {
        let reason = t.exclude.as_deref().filter(|_| of_known_level(t))?;
        Some((t.trial.to_string(), reason.to_owned()))
    };
    let excluded: Vec<(String, String)> = whole.iter().filter_map(reason).collect();
    if excluded.is_empty() {
        return None;
    }
    let restored: Vec<Outcome> =
        outcomes.iter().map(|o| analyse(question, &whole, order, o.quantity, Depth::Verdicts)).collect();
    Some(Remark::Excluded(Excluded {
        trials: excluded,
        changes: changes(question, judged, outcomes, &restored),
        largest: largest(question, outcomes, &restored),
    }))
}

/// Verdicts that differ.
fn changes(question: Question<'_>, judged: &[Judged], before: &[Outcome], after: &[Outcome]) -> Vec<VerdictChange> {
    let mut changes = Vec::new();
    for ((before, after), judged) in before.iter().zip(after).zip(judged) {
        let after = differences(question, judged.level, after);
        let before_of_quantity = differences(question, judged.level, before);
        changes.extend(before_of_quantity.iter().filter_map(|b| change(question, before.quantity, b, &after)));
    }
    changes
}

/// The mean that changes most, as a share of itself.
fn largest(question: Question<'_>, before: &[Outcome], after: &[Outcome]) -> Option<MeanChange> {
    let pairs = before.iter().zip(after).flat_map(|(before, after)| {
        let mean = |level: &str| after.means.iter().find(|m| m.level == level).map(|m| m.value.value);
        before.means.iter().filter_map(move |m| {
            Some(MeanChange {
                quantity: before.quantity,
                factor: question.request.factor.clone(),
                level: m.level.clone(),
                from: m.value.value,
                to: mean(&m.level)?,
            })
        })
    });
    let share = |change: &MeanChange| ((change.to - change.from) / change.from).abs();
    let mut top: Option<MeanChange> = None;
    for change in pairs {
        if share(&change).is_finite() && share(&change) > top.as_ref().map_or(0.0, share) {
            top = Some(change);
        }
    }
    top
}
