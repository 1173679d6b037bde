//! Comparing groups of trials: means, contrasts, verdicts, budget.
//!
//! Steps: choose trials -> one [`outcome`] a quantity by [`one_quantity`] (means with shared errors kept, contrasts with
//! shared errors cancelled, slopes; unadjusted or by a model) -> levels of all verdicts together by `page` -> [`verdict`] -> remarks on odd and excluded trials,
//! interactions, and advice on what would help. Nothing here looks at a log, and nothing here is a sentence.

mod adjusted;
mod advice;
mod assumptions;
mod balances;
mod borrowed;
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
mod level_scatter;
mod limits;
pub mod one_quantity;
pub mod outcome;
mod page;
pub mod plan;
mod readings;
mod remarks;
mod rig_model;
mod sample;
mod sample_size;
mod scatter;
mod trend;
mod unadjusted;
mod unadjusted_mean;
pub mod verdict;

pub(crate) use error_origin::error_origin;
pub(crate) use frame::is_numeric;
pub(crate) use page::planned_level;
pub(crate) use sample_size::POWER as SAMPLE_SIZE_POWER;

use crate::finding::{Finding, FindingSummary};
use crate::result::{Analysis, Comparison, Gap, Remark, TrialSummary, VesselLoss};
use crate::settings::Settings;
use crate::shared::SharedSources;
use crate::trial_accumulator::TrialAccumulator;
use crate::{Quantity, book, build, cautions, forecast};
use calefact_data::{Apparatus, TrialKind};
use calefact_stats::ErrorSources;
use interaction::Interactions;
use outcome::{Depth, Outcome, Question};
use page::{Draft, Judged};
use plan::Plan;
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
    let TrialAccumulator { shared, trials, shown, gaps, noticed, budget, assumed, .. } = gathered;
    let (shown, curves) = shown.finish();
    let currency = apparatus.currency();
    let ((comparisons, scatters), (forecasts, builds)) = rayon::join(
        || compare_all(settings, &shared, currency.as_deref(), (&trials, &gaps)),
        || {
            let forecasts = || forecast::forecasts(settings, apparatus, &shared, &trials);
            rayon::join(forecasts, || build::builds(settings, apparatus, &shared, &trials))
        },
    );
    let book = book::own(&header.name, &trials, &shared, &forecasts, (currency.as_deref(), settings.level));
    let sources: ErrorSources = shared.book().clone().into_iter().chain(scatters.into_iter().flatten()).collect();
    let budget = budget::with_groups(budget, &comparisons, &sources);
    let assumptions = assumptions::assumptions(assumed, &comparisons, &trials);
    let advice = without_repeats(comparisons.iter().flat_map(|c| advice::advice(c, &sources)));
    findings.extend(forecast::refusals(&forecasts));
    findings.extend(of_no_trial(settings, &comparisons, (&trials, &gaps)));
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
        forecasts,
        builds,
        book,
        budget,
        assumptions,
        advice,
        findings,
        noticed: all,
    }
}

/// Findings of no single trial.
fn of_no_trial(
    settings: &Settings,
    comparisons: &[Comparison],
    (trials, gaps): (&[TrialSummary], &[Gap]),
) -> Vec<Finding> {
    let mut findings = remarks::without_trials(settings, comparisons);
    findings.extend(remarks::without_main(settings, comparisons, trials, gaps));
    findings.extend(remarks::confounded(comparisons));
    findings.extend(remarks::too_many_levels(settings, comparisons));
    if trials.iter().any(|t| t.kind == TrialKind::Burn) {
        findings.extend(cautions::general());
    }
    findings.extend(rig_model::findings(trials));
    findings
}

/// Each comparison of the settings, and the scatters between trials that they bring as sources. The verdicts are given when
/// all quantities of all comparisons are known, since they share one error.
fn compare_all(
    settings: &Settings,
    shared: &SharedSources,
    currency: Option<&str>,
    (trials, gaps): (&[TrialSummary], &[Gap]),
) -> (Vec<Comparison>, Vec<ErrorSources>) {
    let chosen = settings.comparisons.iter().map(|request| plan::within(request, groups::choose(request, trials)));
    let chosen: Vec<(Vec<&TrialSummary>, usize)> = chosen.collect();
    let requests = || settings.comparisons.iter().zip(&chosen);
    let plans: Vec<Option<Plan>> = requests().map(|(request, (chosen, _))| Plan::new(request, chosen)).collect();
    let question = |request, plan| Question {
        request,
        confidence: settings.level,
        combine: settings.combine,
        shared,
        currency,
        plan,
    };
    let asked: Vec<(Question<'_>, &Vec<&TrialSummary>)> =
        requests().zip(&plans).map(|((r, (chosen, _)), plan)| (question(r, plan.as_ref()), chosen)).collect();
    let drafts: Vec<Draft<'_, '_>> = asked.par_iter().map(|(q, chosen)| draft(*q, chosen)).collect();
    let judged = page::judge(&drafts, 1.0 - settings.level);
    let (mut comparisons, scatters): (Vec<Comparison>, Vec<ErrorSources>) =
        drafts.par_iter().zip(&judged).map(|(draft, judged)| finish(draft, judged, (trials, gaps))).unzip();
    for (comparison, ((request, (_, beyond)), _)) in comparisons.iter_mut().zip(requests().zip(&plans)) {
        if let (Some(planned), true) = (request.planned, *beyond > 0) {
            comparison
                .remarks
                .insert(0, Remark::BeyondPlan { factor: request.factor.clone(), planned, left_out: *beyond });
        }
    }
    (comparisons, scatters)
}

/// The quantities of one comparison.
fn draft<'q, 't>(question: Question<'q>, chosen: &[&'t TrialSummary]) -> Draft<'q, 't> {
    let levels = groups::levels(&question.request.factor, chosen);
    let outcome = |quantity: &Quantity| one_quantity::analyse(question, chosen, &levels, *quantity, Depth::Full);
    let outcomes: Vec<Outcome> =
        question.request.quantities.par_iter().map(outcome).filter(|o| !o.means.is_empty()).collect();
    Draft { question, chosen: chosen.to_vec(), levels, outcomes }
}

/// One comparison with its verdicts, and the scatters between trials it brings as sources.
fn finish(draft: &Draft<'_, '_>, judged: &[Judged], trials: (&[TrialSummary], &[Gap])) -> (Comparison, ErrorSources) {
    let Draft { question, chosen, levels, outcomes } = draft;
    let (question, request) = (*question, question.request);
    let scatters = outcomes.iter().flat_map(|o| &o.means).filter_map(|m| m.scatter.clone()).collect();
    let mut comparison = Comparison {
        factor: request.factor.clone(),
        kind: request.kind,
        only: request.only.clone(),
        levels: levels.clone(),
        groups: Vec::new(),
        contrasts: Vec::new(),
        balances: balances::balances(&request.factor, levels, chosen, question.shared, question.confidence),
        trends: Vec::new(),
        remarks: Vec::new(),
        reassurances: Vec::new(),
    };
    for (place, (outcome, judged)) in outcomes.iter().zip(judged).enumerate() {
        comparison.groups.extend(outcome.means.iter().map(|m| groups::row(m, question, outcome.quantity)));
        comparison.contrasts.extend(verdict::report(question, outcome, judged, place == 0));
        let slopes = outcome.slopes.iter().zip(&judged.slopes);
        comparison.trends.extend(slopes.map(|(s, p)| trend::report(s, outcome.quantity, question, *p)));
    }
    let main = outcomes.first().map(|o| interaction::tests(question, chosen, levels, o.quantity));
    let Interactions { remarks, not_found } = main.unwrap_or_default();
    comparison.remarks = all_remarks(draft, judged, trials, remarks);
    comparison.reassurances = not_found;
    (comparison, scatters)
}

/// Remarks of a comparison in order of weight, each once.
fn all_remarks(
    draft: &Draft<'_, '_>,
    judged: &[Judged],
    (trials, gaps): (&[TrialSummary], &[Gap]),
    interactions: Vec<Remark>,
) -> Vec<Remark> {
    let Draft { question, chosen, levels, outcomes } = draft;
    let adjusted = outcomes.iter().any(|o| o.adjusted);
    let design = remarks::design(question.request, chosen, levels, adjusted);
    let of_outcomes = outcomes.iter().flat_map(|o| o.remarks.iter().cloned());
    let influence = influence::remarks(*question, chosen, levels, (outcomes, judged));
    let excluded = excluded::remark(*question, trials, levels, (outcomes, judged));
    let uneven = outcomes.first().map(|main| imbalance::remarks(*question, chosen, main)).unwrap_or_default();
    let kept = readings::few(*question, chosen, outcomes).into_iter().chain(readings::one_sided(chosen, trials, gaps));
    let of_design = design.into_iter().chain(of_outcomes).chain(uneven).chain(kept);
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
