//! Remarks on the design of a comparison, and findings about comparisons that came to nothing.

use super::frame::is_numeric;
use super::groups::choose;
use super::limits::{MOST_ADVISED, MOST_LEVELS};
use crate::fact::{ComparisonFact, ConfoundedPair};
use crate::finding::Finding;
use crate::result::{Comparison, Gap, Remark, TrialSummary};
use crate::settings::{ComparisonRequest, Settings};
use std::collections::HashSet;

/// A remark on the design of one comparison, where it has too few levels, or levels of one trial.
pub(crate) fn design(
    request: &ComparisonRequest,
    chosen: &[&TrialSummary],
    levels: &[String],
    adjusted: bool,
) -> Option<Remark> {
    let factor = request.factor.clone();
    if levels.len() < 2 {
        return Some(Remark::TooFewLevels { factor, levels: levels.len() });
    }
    let count = |level: &&String| chosen.iter().filter(|t| t.level(&factor) == Some(level)).count();
    let single: Vec<String> = levels.iter().filter(|l| count(l) == 1).cloned().collect();
    let none = single.is_empty() || is_numeric(levels);
    (!none).then_some(Remark::TriedOnce { factor, levels: single, adjusted })
}

/// A finding for each comparison without a usable trial.
pub(crate) fn without_trials(settings: &Settings, comparisons: &[Comparison]) -> Vec<Finding> {
    let requests = settings.comparisons.iter().zip(comparisons);
    let empty = requests.filter(|(_, comparison)| comparison.levels.is_empty());
    let fact = |request: &ComparisonRequest| ComparisonFact::Empty {
        factor: request.factor.clone(),
        only: request.only.clone(),
        kind: request.kind,
    };
    empty.map(|(request, _)| Finding::warning(fact(request))).collect()
}

/// A finding for each comparison whose main quantity could not be given for any trial, with the commonest reason; each once.
pub(crate) fn without_main(
    settings: &Settings,
    comparisons: &[Comparison],
    trials: &[TrialSummary],
    gaps: &[Gap],
) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for (request, comparison) in settings.comparisons.iter().zip(comparisons) {
        let make = if is_chosen(request) { Finding::warning } else { Finding::note };
        let finding = main_missing(request, comparison, trials, gaps).map(make);
        findings.extend(finding.filter(|f| !findings.contains(f)));
    }
    findings
}

/// A finding for each comparison whose main quantity has a difference, or a trend, that cannot be told apart from other columns.
pub(crate) fn confounded(comparisons: &[Comparison]) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for comparison in comparisons {
        let finding = confounded_main(comparison).map(Finding::warning);
        findings.extend(finding.filter(|f| !findings.contains(f)));
    }
    findings
}

/// A finding for each comparison whose levels are too many to compare all pairs, or to say of each what it needs.
pub(crate) fn too_many_levels(settings: &Settings, comparisons: &[Comparison]) -> Vec<Finding> {
    let requests = settings.comparisons.iter().zip(comparisons);
    let paired = requests.filter(|(_, c)| !c.groups.is_empty() && c.trends.is_empty());
    let cut = |(request, comparison): (&ComparisonRequest, &Comparison)| {
        let (factor, only, levels) = (request.factor.clone(), request.only.clone(), comparison.levels.len());
        if levels > MOST_LEVELS {
            return Some(Finding::warning(ComparisonFact::TooManyLevels { factor, only, levels, most: MOST_LEVELS }));
        }
        let fact = ComparisonFact::ManyLevels { factor, only, levels, most: MOST_ADVISED };
        (levels > MOST_ADVISED).then(|| Finding::note(fact))
    };
    paired.filter_map(cut).collect()
}

fn confounded_main(comparison: &Comparison) -> Option<ComparisonFact> {
    let main = comparison.groups.first()?.quantity;
    let contrasts = || comparison.contrasts.iter().filter(|c| c.quantity == main && !c.confounded.is_empty());
    let pair = contrasts().next();
    let slope = comparison.trends.iter().find(|t| t.quantity == main && !t.confounded.is_empty());
    let of_pairs = contrasts().flat_map(|c| c.confounded.iter().map(|column| &column.column));
    let mut columns: Vec<String> = Vec::new();
    for column in of_pairs.chain(slope.iter().flat_map(|t| &t.confounded)) {
        if !columns.contains(column) {
            columns.push(column.clone());
        }
    }
    (!columns.is_empty()).then(|| ComparisonFact::Confounded {
        factor: comparison.factor.clone(),
        only: comparison.only.clone(),
        kind: comparison.kind,
        pair: pair.map(|c| ConfoundedPair { a: c.a.clone(), b: c.b.clone(), columns: c.confounded.clone() }),
        columns,
    })
}

/// Whether somebody chose the main quantity, or the comparison is not of exchangers, which few rigs have the probes to compare
/// in conductance.
fn is_chosen(request: &ComparisonRequest) -> bool {
    let usual = ComparisonRequest::new(request.factor.clone(), request.kind).quantities;
    request.main.is_some() || request.factor != "exchanger" || request.quantities != usual
}

fn main_missing(
    request: &ComparisonRequest,
    comparison: &Comparison,
    trials: &[TrialSummary],
    gaps: &[Gap],
) -> Option<ComparisonFact> {
    let main = *request.quantities.first().filter(|_| !comparison.levels.is_empty())?;
    if comparison.groups.iter().any(|g| g.quantity == main) {
        return None;
    }
    let chosen: HashSet<&str> = choose(request, trials).iter().map(|t| &*t.trial).collect();
    let lacking = |g: &Gap| g.trials.iter().filter(|i| chosen.contains(&*trials[**i].trial)).count();
    let of_main = gaps.iter().filter(|g| g.quantity == main).map(|g| (lacking(g), g));
    let (count, gap) = of_main.filter(|(n, _)| *n > 0).max_by_key(|(n, _)| *n)?;
    Some(ComparisonFact::MainQuantityMissing {
        quantity: main,
        lacks: gap.lacks.clone(),
        trials: count,
        replaced: !comparison.groups.is_empty(),
    })
}
