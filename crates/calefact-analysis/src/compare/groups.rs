//! Which trials take part in a comparison, and what the comparison is called.

use super::outcome::LevelMean;
use crate::result::{GroupResult, TrialResult};
use crate::settings::ComparisonRequest;
use calefact_data::Severity;
use calefact_stats::Estimate;

/// Usable trials of the kind and levels a request asks for, in register order.
pub fn choose<'t>(request: &ComparisonRequest, trials: &'t [TrialResult]) -> Vec<&'t TrialResult> {
    choose_among(request, trials, TrialResult::usable)
}

/// The same with the trials that the register excludes put back, unless their data have an error.
pub fn choose_with_excluded<'t>(request: &ComparisonRequest, trials: &'t [TrialResult]) -> Vec<&'t TrialResult> {
    choose_among(request, trials, |t| !t.findings.iter().any(|f| f.severity == Severity::Error))
}

fn choose_among<'t>(
    request: &ComparisonRequest,
    trials: &'t [TrialResult],
    sound: impl Fn(&TrialResult) -> bool,
) -> Vec<&'t TrialResult> {
    let wanted = |t: &&TrialResult| {
        sound(t)
            && t.row.kind == request.kind
            && t.row.level(&request.factor).is_some()
            && request.only.iter().all(|(factor, level)| t.row.level(factor) == Some(level))
    };
    trials.iter().filter(wanted).collect()
}

/// Levels of a factor in the order of first appearance.
pub fn levels(factor: &str, trials: &[&TrialResult]) -> Vec<String> {
    let mut levels: Vec<String> = Vec::new();
    for level in trials.iter().filter_map(|t| t.row.level(factor)) {
        if !levels.iter().any(|l| l == level) {
            levels.push(level.to_owned());
        }
    }
    levels
}

/// Words for the heading of a comparison.
pub fn title(request: &ComparisonRequest) -> String {
    let only: Vec<String> = request.only.iter().map(|(f, l)| format!("{f} {l} only")).collect();
    if only.is_empty() { request.factor.clone() } else { format!("{}, {}", request.factor, only.join(", ")) }
}

/// The row of the groups table.
pub fn row(mean: &LevelMean, request: &ComparisonRequest, quantity: crate::Quantity, level: f64) -> GroupResult {
    let (value, u) = (mean.value.value, mean.value.std_uncertainty());
    GroupResult {
        levels: vec![(request.factor.clone(), mean.level.clone())],
        quantity,
        trials: mean.trials.clone(),
        mean: Estimate::student(value, quantity.unit(), u, mean.dof, level, mean.method.clone()),
        traced: mean.value.clone(),
        between_sd: mean.sd,
        between_sd_interval: mean.sd_interval,
        predict: mean.predict,
    }
}
