//! All verdicts of a page together: at most as many pages as the level allows hold any false one.
//!
//! Every comparison has an equal share of that error. Its main quantity, which is named before the results are known, has
//! four fifths of the share, its other quantities the rest evenly, and covariates count as one of those. A quantity whose
//! pairs are all told apart passes its share on: the main one half to the others of its comparison and half to the main ones
//! of other comparisons, another one to the rest of its comparison. [`calefact_stats::graph`] is the procedure, with its
//! proof. A comparison with a margin of equivalence keeps its shares, since its verdicts of likeness spend them too.

use super::outcome::{Outcome, PairTest, Question, Slope};
use super::plan::LAST;
use crate::result::{ContrastKind, TrialSummary};
use crate::settings::ComparisonRequest;
use calefact_stats::graph::{Node, NodeResult, test_families};
use calefact_stats::holm;

/// Share of a comparison's error that is kept for its main quantity.
const MAIN: f64 = 0.8;
/// Part of its share that a settled main quantity leaves to the other quantities of its comparison.
const OWN: f64 = 0.5;

/// Level at which the pairs of a main quantity will be judged together at the planned number of trials, one comparison of so
/// many: its share as long as no other quantity has passed one on.
pub(crate) fn planned_level(alpha: f64, request: &ComparisonRequest, comparisons: usize) -> f64 {
    let has_others = request.quantities.len() > 1 || !request.covariates.is_empty();
    alpha * LAST * if has_others { MAIN } else { 1.0 } / comparisons as f64
}

/// A comparison whose verdicts are still to be given.
pub(crate) struct Draft<'q, 't> {
    pub(super) question: Question<'q>,
    pub(super) chosen: Vec<&'t TrialSummary>,
    pub(super) levels: Vec<String>,
    pub(super) outcomes: Vec<Outcome>,
}

/// How one quantity of a comparison is judged.
#[derive(Debug, Clone, Default)]
pub(crate) struct Judged {
    /// Level at which its p-values, adjusted for the pairs, are judged.
    pub(super) level: f64,
    /// p-values adjusted for all verdicts of the page: of each pair, 1 where it is not tested.
    pub(super) pairs: Vec<f64>,
    /// The same of each slope.
    pub(super) slopes: Vec<f64>,
}

/// A family of hypotheses: those of one quantity, or all slopes along covariates.
struct Family {
    comparison: usize,
    /// Place of the quantity; none for covariates.
    quantity: Option<usize>,
    p_values: Vec<f64>,
}

/// Judges all comparisons of a page; `alpha` is the probability of any false verdict.
pub(crate) fn judge(drafts: &[Draft<'_, '_>], alpha: f64) -> Vec<Vec<Judged>> {
    let families: Vec<Family> = drafts.iter().enumerate().flat_map(|(c, draft)| families(c, draft)).collect();
    let nodes: Vec<Node> = (0..families.len()).map(|i| node(&families, i, drafts)).collect();
    let results = test_families(&nodes, alpha);
    let found = |comparison: usize, quantity: Option<usize>| {
        let is_it = |f: &Family| f.comparison == comparison && f.quantity == quantity;
        families.iter().position(is_it).map(|i| &results[i])
    };
    let judged = |(c, draft): (usize, &Draft<'_, '_>)| {
        let mut covariates = found(c, None).map_or(&[][..], |r| &r.p_adjusted).iter();
        let one = |(q, outcome): (usize, &Outcome)| judged(draft, outcome, found(c, Some(q)), &mut covariates);
        draft.outcomes.iter().enumerate().map(one).collect()
    };
    drafts.iter().enumerate().map(judged).collect()
}

/// Whether a pair is a hypothesis of its own: a ratio has the verdict of its difference.
fn is_tested(pair: &PairTest) -> bool {
    pair.kind == ContrastKind::Difference && pair.confounded.is_empty()
}

/// Whether a slope is along the factor itself, which makes it a hypothesis of its quantity.
fn is_own(draft: &Draft<'_, '_>, slope: &Slope) -> bool {
    slope.factor == draft.question.request.factor
}

fn families(comparison: usize, draft: &Draft<'_, '_>) -> Vec<Family> {
    let family = |(q, outcome): (usize, &Outcome)| {
        let pairs = outcome.pairs.iter().filter(|p| is_tested(p)).map(|p| p.p_adjusted);
        let own = outcome.slopes.iter().filter(|s| is_own(draft, s) && s.confounded.is_empty());
        let p_values = pairs.chain(own.map(|s| s.p_value)).collect();
        Family { comparison, quantity: Some(q), p_values }
    };
    let covariates = draft.outcomes.iter().flat_map(|o| &o.slopes).filter(|s| !is_own(draft, s));
    let covariates: Vec<f64> = covariates.map(|s| s.p_value).collect();
    let covariates = Family { comparison, quantity: None, p_values: holm::adjusted_p(&covariates) };
    let all = draft.outcomes.iter().enumerate().map(family).chain([covariates]);
    all.filter(|f| !f.p_values.is_empty()).collect()
}

/// The node of a family, with its share and where that goes.
fn node(families: &[Family], i: usize, drafts: &[Draft<'_, '_>]) -> Node {
    let own = &families[i];
    let is_main = |f: &Family| f.quantity == Some(0);
    let within: Vec<usize> = (0..families.len()).filter(|&j| families[j].comparison == own.comparison).collect();
    let others = within.iter().filter(|&&j| !is_main(&families[j])).count() as f64;
    let has_main = within.iter().any(|&j| is_main(&families[j]));
    let share = match (has_main, is_main(own)) {
        (true, true) if others == 0.0 => 1.0,
        (true, true) => MAIN,
        (true, false) => (1.0 - MAIN) / others,
        (false, _) => 1.0 / others,
    };
    let mut comparisons: Vec<usize> = families.iter().map(|f| f.comparison).collect();
    comparisons.dedup();
    let mains = families.iter().filter(|f| is_main(f) && f.comparison != own.comparison).count() as f64;
    let rest = others - if is_main(own) { 0.0 } else { 1.0 };
    let to_own = match (is_main(own), rest > 0.0, mains > 0.0) {
        (_, false, _) => 0.0,
        (true, true, true) => OWN,
        (_, true, _) => 1.0,
    };
    let transition = |j: usize| match &families[j] {
        _ if j == i => 0.0,
        f if f.comparison == own.comparison && !is_main(f) => to_own / rest,
        f if f.comparison != own.comparison && is_main(f) => (1.0 - to_own) / mains,
        _ => 0.0,
    };
    Node {
        weight: share / comparisons.len() as f64,
        p_values: own.p_values.clone(),
        passes: drafts[own.comparison].question.request.equivalence_margin.is_none(),
        transitions: (0..families.len()).map(transition).collect(),
    }
}

/// One quantity's part of the results; those of covariates are taken in order.
fn judged<'r>(
    draft: &Draft<'_, '_>,
    outcome: &Outcome,
    result: Option<&NodeResult>,
    covariates: &mut impl Iterator<Item = &'r f64>,
) -> Judged {
    let mut own = result.map_or(&[][..], |r| &r.p_adjusted).iter();
    let mut pairs: Vec<f64> = Vec::new();
    for pair in &outcome.pairs {
        let of_difference = || {
            let place = outcome.pairs.iter().position(|p| p.kind == ContrastKind::Difference && p.same_levels(pair));
            place.and_then(|place| pairs.get(place)).copied()
        };
        let p = if is_tested(pair) { own.next().copied() } else { of_difference() };
        pairs.push(p.unwrap_or(1.0));
    }
    let mut slope = |s: &Slope| match (is_own(draft, s), s.confounded.is_empty()) {
        (true, false) => 1.0,
        (true, true) => own.next().copied().unwrap_or(1.0),
        (false, _) => covariates.next().copied().unwrap_or(1.0),
    };
    let slopes = outcome.slopes.iter().map(&mut slope).collect();
    Judged { level: result.map_or(0.0, |r| r.level), pairs, slopes }
}
