//! Comparing groups of trials: means, contrasts, verdicts, budget.
//!
//! Steps: choose trials -> one [`outcome`] a quantity (means with shared errors kept, contrasts with shared errors
//! cancelled, slopes; [`unadjusted`] or by the model of [`adjusted`]) -> [`verdict`] and [`sentence`] -> remarks on odd and
//! excluded trials, interactions, and what would help. Nothing here looks at a log.

pub mod adjusted;
pub mod advice;
pub mod balances;
pub mod budget;
pub mod conditions;
pub mod currency;
pub mod excluded;
pub mod frame;
pub mod groups;
pub mod influence;
pub mod interaction;
pub mod outcome;
pub mod remarks;
pub mod rig_model;
pub mod sample;
pub mod sample_size;
pub mod sentence;
pub mod trend;
pub mod unadjusted;
pub mod unadjusted_mean;
pub mod verdict;

use crate::finding::{Finding, FindingSummary};
use crate::result::{Analysis, Comparison, TrialSummary, VesselLoss};
use crate::settings::Settings;
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
    let ask = |request| {
        let question = Question { request, level: settings.level, combine: settings.combine, shared: &shared };
        one(question, &trials)
    };
    let (comparisons, scatters): (Vec<Comparison>, Vec<ErrorSources>) =
        settings.comparisons.par_iter().map(ask).unzip();
    let sources: ErrorSources = shared.book().clone().into_iter().chain(scatters.into_iter().flatten()).collect();
    let (budget, advice) = budget::draw(budget, &comparisons, &sources);
    let burnt = trials.iter().any(|t| t.kind == TrialKind::Burn);
    findings.extend(remarks::findings(settings, &comparisons));
    findings.extend(remarks::without_main(settings, &comparisons, &trials, &gaps));
    findings.extend(cautions::general::findings(burnt));
    findings.extend(rig_model::findings(&trials));
    let cautions = cautions::collect(&noticed, burnt);
    let mut all: FindingSummary = findings.iter().collect();
    all.append(noticed);
    let mut analysis = Analysis {
        name: header.name,
        title: header.title,
        invented: header.invented,
        level: settings.level,
        settings: settings.clone(),
        method: remarks::method(settings),
        currency: apparatus.currency(),
        names: apparatus.into(),
        exchangers: apparatus.exchangers.clone(),
        trials,
        shown,
        curves,
        gaps,
        losses,
        comparisons,
        cautions,
        budget,
        advice,
        findings,
        noticed: all,
    };
    currency::name(&mut analysis);
    analysis
}

/// One comparison, and the scatters between trials it brings as sources.
fn one(question: Question<'_>, trials: &[TrialSummary]) -> (Comparison, ErrorSources) {
    let request = question.request;
    let chosen = groups::choose(request, trials);
    let levels = groups::levels(&request.factor, &chosen);
    let balances = balances::balances(&request.factor, &levels, &chosen, question.shared, question.level);
    let ask = |quantity: &Quantity| outcome::analyse(question, &chosen, &levels, *quantity, Depth::Full);
    let outcomes: Vec<Outcome> = request.quantities.par_iter().map(ask).filter(|o| !o.means.is_empty()).collect();
    let scatters = outcomes.iter().flat_map(|o| &o.means).filter_map(|m| m.scatter.clone()).collect();
    let mut comparison = Comparison {
        factor: request.factor.clone(),
        title: groups::title(request),
        levels,
        groups: Vec::new(),
        contrasts: Vec::new(),
        balances,
        trends: Vec::new(),
        remarks: Vec::new(),
        reassurances: Vec::new(),
    };
    for outcome in &outcomes {
        let level = question.level;
        comparison.groups.extend(outcome.means.iter().map(|m| groups::row(m, request, outcome.quantity, level)));
        comparison.contrasts.extend(outcome.pairs.iter().map(|p| verdict::report(question, outcome, p)));
        comparison.trends.extend(outcome.slopes.iter().map(|s| trend::report(s, outcome.quantity, request, level)));
    }
    let main = outcomes.first().map(|o| interaction::of(question, &chosen, &comparison.levels, o.quantity));
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
    (outcomes, interactions): (&[Outcome], Vec<String>),
) -> Vec<String> {
    let adjusted = outcomes.iter().any(|o| o.adjusted);
    let mut remarks = remarks::design(question.request, chosen, levels, adjusted);
    remarks.extend(outcomes.iter().flat_map(|o| o.remarks.iter().cloned()));
    remarks.extend(interactions);
    remarks.extend(influence::remarks(question, chosen, levels, outcomes));
    remarks.extend(excluded::remarks(question, trials, chosen, levels, outcomes));
    let mut once: Vec<String> = Vec::new();
    for remark in remarks {
        if !once.contains(&remark) {
            once.push(remark);
        }
    }
    once
}
