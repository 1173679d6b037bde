//! The energy balance of a group: mean share of each term over its trials, shared errors kept.

use crate::heat_path::terms::Term;
use crate::result::{GroupBalance, Method, TrialSummary};
use crate::shared::{SharedSources, SharedValue};
use calefact_stats::Estimate;
use calefact_stats::group::GroupMean;

/// Terms without which `unaccounted` means something else: the flue loss, and leftovers that nobody weighed.
const DECISIVE: [Term; 3] = [Term::FlueSensible, Term::LeftoverFuel, Term::LeftoverChar];

/// Balances of the levels of a factor, term by term. Where any trial of a level has a decisive term, only the trials that
/// have it count: what was not measured is not zero. Any other term a trial lacks is zero for it, being in its
/// `unaccounted`. So the shares of a level add up to one.
pub(crate) fn balances(
    factor: &str,
    levels: &[String],
    chosen: &[&TrialSummary],
    shared: &SharedSources,
    confidence: f64,
) -> Vec<GroupBalance> {
    let mut out = Vec::new();
    for name in levels {
        let trials = comparable(chosen.iter().copied().filter(|t| t.level(factor) == Some(name)));
        for term in terms(&trials) {
            let has: Vec<Option<SharedValue<'_>>> = trials.iter().map(|t| t.share(term.name())).collect();
            let shares: Vec<SharedValue<'_>> = has.iter().map(|share| share.unwrap_or_default()).collect();
            let scatter = format!("scatter:balance:{}:{factor}:{name}", term.name());
            let Some(group) = shared.mean(&shares, &trials[0].trial, scatter.into()) else { continue };
            out.push(finish(name, term, has.iter().flatten().count(), &group, confidence));
        }
    }
    out
}

/// Trials with a balance; those with each decisive term that any of them has.
fn comparable<'a>(trials: impl Iterator<Item = &'a TrialSummary>) -> Vec<&'a TrialSummary> {
    let mut all: Vec<&TrialSummary> = trials.filter(|t| t.balanced()).collect();
    for term in DECISIVE {
        let has = |t: &&TrialSummary| t.share(term.name()).is_some();
        if all.iter().any(has) {
            all.retain(has);
        }
    }
    all
}

fn finish(name: &str, term: Term, n: usize, group: &GroupMean, confidence: f64) -> GroupBalance {
    let method = if group.summary.n == 1 { Method::SingleTrial } else { Method::Mean };
    let mean = &group.mean;
    let share = Estimate::student(mean.value, "1", mean.std_uncertainty(), group.dof, confidence);
    GroupBalance { level: name.to_owned(), term: term.name(), n, share: share.within(term.bounds()), method }
}

/// Terms that any of the trials has, in the order in which they stand in a balance.
fn terms(trials: &[&TrialSummary]) -> Vec<Term> {
    let has = |term: &Term| trials.iter().any(|t| t.share(term.name()).is_some());
    Term::ALL.into_iter().filter(has).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::result::{BalanceTerm, TrialResult};
    use crate::test_support::row;
    use crate::{Settings, TrialAccumulator};
    use calefact_data::TrialKind;
    use calefact_stats::{ErrorSources, UncertainValue};

    fn trial(shares: &[(&'static str, f64)]) -> TrialResult {
        let mut trial = TrialResult::empty(row(TrialKind::Burn), 5, Vec::new());
        trial.balance = shares
            .iter()
            .map(|(term, share)| BalanceTerm {
                term,
                energy: Estimate::student(*share, "MJ", 0.1, 5.0, 0.95),
                share: Estimate::student(*share, "1", 0.1, 5.0, 0.95),
                traced: UncertainValue::exact(*share),
                notes: Vec::new(),
            })
            .collect();
        trial
    }

    #[test]
    fn shares_of_a_level_add_up_to_one() {
        let trials = [
            trial(&[("stored", 0.4), ("flue_sensible", 0.2), ("unaccounted", 0.4)]),
            trial(&[("stored", 0.3), ("flue_sensible", 0.1), ("casing", 0.1), ("unaccounted", 0.5)]),
            trial(&[("stored", 0.3), ("unaccounted", 0.7)]),
        ];
        let mut all = TrialAccumulator::new(&Settings::default(), &ErrorSources::new());
        all.extend(trials);
        let chosen: Vec<&TrialSummary> = all.trials.iter().collect();
        let found = balances("stove", &["box".to_owned()], &chosen, &all.shared, 0.95);
        let sum: f64 = found.iter().map(|b| b.share.value).sum();
        assert!((sum - 1.0).abs() < 1e-12, "{found:?}");
        let of = |term| found.iter().find(|b| b.term == term).map(|b| (b.n, b.share.value));
        assert_eq!((of("stored").map(|b| b.0), of("casing").map(|b| b.0)), (Some(2), Some(1)));
        assert!(of("unaccounted").is_some_and(|b| (b.1 - 0.45).abs() < 1e-12));
    }

    #[test]
    fn leftovers_that_nobody_weighed_are_not_zero() {
        let trials = [
            trial(&[("stored", 0.4), ("leftover_char", 0.10), ("unaccounted", 0.5)]),
            trial(&[("stored", 0.4), ("leftover_char", 0.06), ("unaccounted", 0.54)]),
            trial(&[("stored", 0.4), ("unaccounted", 0.6)]),
        ];
        let mut all = TrialAccumulator::new(&Settings::default(), &ErrorSources::new());
        all.extend(trials);
        let chosen: Vec<&TrialSummary> = all.trials.iter().collect();
        let found = balances("stove", &["box".to_owned()], &chosen, &all.shared, 0.95);
        let char = found.iter().find(|b| b.term == "leftover_char").expect("weighed twice");
        assert!((char.share.value - 0.08).abs() < 1e-12 && char.n == 2, "{char:?}");
        // t(.975; 1) x 0.02 is 0.254: the interval stops at zero.
        assert!(char.share.interval.lower.abs() < f64::EPSILON);
    }
}
