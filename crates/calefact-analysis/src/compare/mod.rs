//! Comparing groups of trials: means, contrasts, verdicts, budget.
//!
//! Steps: choose trials -> one [`outcome`] a quantity by [`one_quantity`] (means with shared errors kept, contrasts with
//! shared errors cancelled, slopes; unadjusted or by a model) -> [`verdict`] -> remarks on odd and excluded trials,
//! interactions, and advice on what would help. Nothing here looks at a log, and nothing here is a sentence.

mod adjusted;
mod advice;
mod balances;
mod budget;
mod conditions;
mod confounding;
mod error_origin;
mod excluded;
mod frame;
mod groups;
mod imbalance;
mod influence;
mod interaction;
pub mod one_quantity;
pub mod outcome;
mod remarks;
mod rig_model;
mod sample;
mod sample_size;
mod scatter;
mod trend;
mod unadjusted;
mod unadjusted_mean;
pub mod verdict;

use crate::finding::{Finding, FindingSummary};
use crate::result::{Analysis, Comparison, Interaction, Remark, TrialSummary, VesselLoss};
use crate::settings::Settings;
use crate::shared::SharedSources;
use crate::trial_accumulator::TrialAccumulator;
use crate::{Quantity, cautions};
use calefact_data::{Apparatus, TrialKind};
use calefact_stats::ErrorSources;
use interaction::Interactions;
use outcome::{Depth, Outcome, Question};
use rayon::prelude::*;

/// What names an analysis.
#[derive(Debug, Clone, Default)]
pub struct AnalysisHeader {
    /// Pipeline name.
    pub name: String,
    /// Title.
    pub title: String,
    /// Whether any dataset is invented.
    pub invented: bool,
}

/// Compares gathered trials. `findings` are those of no trial so far.
pub fn compare(
    header: AnalysisHeader,
    settings: &Settings,
    apparatus: &Apparatus,
    gathered: TrialAccumulator,
    losses: Vec<VesselLoss>,
    mut findings: Vec<Finding>,
) -> Analysis {
    let TrialAccumulator { shared, trials, shown, gaps, noticed, budget, .. } = gathered;
    let (shown, curves) = shown.finish();
    let currency = apparatus.currency();
    let (comparisons, scatters) = compare_all(settings, &shared, currency.as_deref(), &trials);
    let sources: ErrorSources = shared.book().clone().into_iter().chain(scatters.into_iter().flatten()).collect();
    let budget = budget::with_groups(budget, &comparisons, &sources);
    let advice = without_repeats(comparisons.iter().flat_map(|c| advice::advice(c, &sources)));
    findings.extend(remarks::without_trials(settings, &comparisons));
    findings.extend(remarks::without_main(settings, &comparisons, &trials, &gaps));
    findings.extend(remarks::confounded(&comparisons));
    if trials.iter().any(|t| t.kind == TrialKind::Burn) {
        findings.extend(cautions::general());
    }
    findings.extend(rig_model::findings(&trials));
    let mut all: FindingSummary = findings.iter().collect();
    all.append(noticed);
    Analysis {
        name: header.name,
        title: header.title,
        invented: header.invented,
        level: settings.level,
        settings: settings.clone(),
        currency,
        names: apparatus.into(),
        exchangers: apparatus.exchangers.clone(),
        trials,
        shown,
        curves,
        gaps,
        losses,
        comparisons,
        budget,
        advice,
        findings,
        noticed: all,
    }
}

/// Each comparison of the settings, and the scatters between trials that they bring as sources.
fn compare_all(
    settings: &Settings,
    shared: &SharedSources,
    currency: Option<&str>,
    trials: &[TrialSummary],
) -> (Vec<Comparison>, Vec<ErrorSources>) {
    let question =
        |request| Question { request, confidence: settings.level, combine: settings.combine, shared, currency };
    settings.comparisons.par_iter().map(|request| compare_one(question(request), trials)).unzip()
}

/// One comparison, and the scatters between trials it brings as sources.
fn compare_one(question: Question<'_>, trials: &[TrialSummary]) -> (Comparison, ErrorSources) {
    let request = question.request;
    let chosen = groups::choose(request, trials);
    let levels = groups::levels(&request.factor, &chosen);
    let balances = balances::balances(&request.factor, &levels, &chosen, question.shared, question.confidence);
    let outcome = |quantity: &Quantity| one_quantity::analyse(question, &chosen, &levels, *quantity, Depth::Full);
    let outcomes: Vec<Outcome> = request.quantities.par_iter().map(outcome).filter(|o| !o.means.is_empty()).collect();
    let scatters = outcomes.iter().flat_map(|o| &o.means).filter_map(|m| m.scatter.clone()).collect();
    let mut comparison = Comparison {
        factor: request.factor.clone(),
        kind: request.kind,
        only: request.only.clone(),
        levels,
        groups: Vec::new(),
        contrasts: Vec::new(),
        balances,
        trends: Vec::new(),
        remarks: Vec::new(),
        reassurances: Vec::new(),
    };
    for outcome in &outcomes {
        comparison.groups.extend(outcome.means.iter().map(|m| groups::row(m, question, outcome.quantity)));
        comparison.contrasts.extend(outcome.pairs.iter().map(|p| verdict::report(question, outcome, p)));
        comparison.trends.extend(outcome.slopes.iter().map(|s| trend::report(s, outcome.quantity, question)));
    }
    let main = outcomes.first().map(|o| interaction::tests(question, &chosen, &comparison.levels, o.quantity));
    let Interactions { found, not_found } = main.unwrap_or_default();
    comparison.remarks = all_remarks(question, trials, &chosen, &comparison.levels, (&outcomes, found));
    comparison.reassurances = not_found;
    (comparison, scatters)
}

/// Remarks of a comparison in order of weight, each once.
fn all_remarks(
    question: Question<'_>,
    trials: &[TrialSummary],
    chosen: &[&TrialSummary],
    levels: &[String],
    (outcomes, interactions): (&[Outcome], Vec<Interaction>),
) -> Vec<Remark> {
    let adjusted = outcomes.iter().any(|o| o.adjusted);
    let design = remarks::design(question.request, chosen, levels, adjusted);
    let of_outcomes = outcomes.iter().flat_map(|o| o.remarks.iter().cloned());
    let interactions = interactions.into_iter().map(Remark::Interaction);
    let influence = influence::remarks(question, chosen, levels, outcomes);
    let excluded = excluded::remark(question, trials, levels, outcomes);
    let uneven = outcomes.first().map(|main| imbalance::remarks(question, chosen, main)).unwrap_or_default();
    let of_design = design.into_iter().chain(of_outcomes).chain(uneven);
    without_repeats(of_design.chain(interactions).chain(influence).chain(excluded))
}

/// Facts in order, each once.
fn without_repeats<F: PartialEq>(facts: impl Iterator<Item = F>) -> Vec<F> {
    let mut once: Vec<F> = Vec::new();
    for fact in facts {
        if !once.contains(&fact) {
            once.push(fact);
        }
    }
    once
}
