//! Which trials take part in a comparison, and its group means as results.

use super::outcome::{LevelMean, Question};
use crate::Quantity;
use crate::result::{GroupResult, TrialSummary};
use crate::settings::ComparisonRequest;
use calefact_stats::Estimate;

/// Usable trials of the kind and levels a request asks for, in register order.
pub(crate) fn choose<'t>(request: &ComparisonRequest, trials: &'t [TrialSummary]) -> Vec<&'t TrialSummary> {
    choose_among(request, trials, TrialSummary::usable)
}

/// The same with the trials that the register excludes put back, unless their data have an error.
pub(crate) fn choose_with_excluded<'t>(
    request: &ComparisonRequest,
    trials: &'t [TrialSummary],
) -> Vec<&'t TrialSummary> {
    choose_among(request, trials, |t| t.sound)
}

fn choose_among<'t>(
    request: &ComparisonRequest,
    trials: &'t [TrialSummary],
    sound: impl Fn(&TrialSummary) -> bool,
) -> Vec<&'t TrialSummary> {
    let wanted = |t: &&TrialSummary| {
        sound(t)
            && t.kind == request.kind
            && t.level(&request.factor).is_some()
            && request.only.iter().all(|(factor, level)| t.level(factor) == Some(level))
    };
    trials.iter().filter(wanted).collect()
}

/// Levels of a factor in the order of first appearance.
pub(crate) fn levels(factor: &str, trials: &[&TrialSummary]) -> Vec<String> {
    let mut levels: Vec<String> = Vec::new();
    for level in trials.iter().filter_map(|t| t.level(factor)) {
        if !levels.iter().any(|l| l == level) {
            levels.push(level.to_owned());
        }
    }
    levels
}

/// The row of the groups table.
pub(crate) fn row(mean: &LevelMean, question: Question<'_>, quantity: Quantity) -> GroupResult {
    let (value, u) = (mean.value.value, mean.value.std_uncertainty());
    let (unit, bounds) = (quantity.unit_in(question.currency), quantity.bounds());
    GroupResult {
        levels: vec![(question.request.factor.clone(), mean.level.clone())],
        quantity,
        trials: mean.trials.clone(),
        mean: Estimate::student(value, unit, u, mean.dof, question.confidence).within(bounds),
        method: mean.method.clone(),
        traced: mean.value.clone(),
        between_sd: mean.sd,
        between_sd_interval: mean.sd_interval,
        predict: mean.predict.map(|next| if bounds.contains(value) { bounds.part(next) } else { next }),
    }
}
