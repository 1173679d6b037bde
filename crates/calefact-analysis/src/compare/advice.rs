//! What would narrow the intervals of a comparison: more trials, or which better instrument.

use super::error_origin::error_origin;
use crate::result::{Advice, Comparison, ErrorOrigin, GroupResult, LargestSource, Narrow, RepeatBenefit};
use calefact_stats::ErrorSources;
use std::collections::BTreeMap;

/// Share of the variance below which a better instrument would not be noticed.
const NEGLIGIBLE: f64 = 0.02;
/// How many instruments are named as negligible.
const MOST_NAMED: usize = 4;
/// Scatter above this share of the variance: more trials help most.
const MOST: f64 = 0.6;
/// Scatter below this share: more trials hardly help.
const LITTLE: f64 = 0.2;

/// Shares of the variance of level means, averaged over the groups.
struct Shares {
    /// Share of the scatter between trials.
    scatter: f64,
    /// Share of each shared error, largest first; an instrument counts with all its errors together.
    shared: Vec<(ErrorOrigin, f64)>,
}

/// Advice on the main quantity of a comparison.
pub(crate) fn advice(comparison: &Comparison, sources: &ErrorSources) -> Vec<Advice> {
    let Some(quantity) = comparison.groups.first().map(|g| g.quantity) else { return Vec::new() };
    let groups: Vec<&GroupResult> = comparison.groups.iter().filter(|g| g.quantity == quantity).collect();
    let Shares { scatter, shared } = shares(&groups, sources);
    let Some((origin, share)) = shared.first() else { return Vec::new() };
    let scatter = groups.iter().any(|g| g.trials.len() > 1).then_some(scatter);
    if scatter.is_none() && !comparison.trends.is_empty() {
        // The scatter about the trend is known, but in no group.
        return Vec::new();
    }
    let repeats = benefit(scatter, *share);
    let matters = !matches!(repeats, RepeatBenefit::Unknown | RepeatBenefit::Only);
    let narrow = Narrow {
        factor: comparison.factor.clone(),
        only: comparison.only.clone(),
        kind: comparison.kind,
        quantity,
        scatter,
        repeats,
        largest: matters.then(|| largest(origin, *share)),
    };
    let instruments = negligible(&shared);
    let negligible = (!instruments.is_empty()).then_some(Advice::Negligible { quantity, instruments });
    [Advice::Narrow(narrow)].into_iter().chain(negligible).collect()
}

/// How much more trials would help, by the share of their scatter and that of the largest shared error.
fn benefit(scatter: Option<f64>, largest: f64) -> RepeatBenefit {
    match scatter {
        None => RepeatBenefit::Unknown,
        Some(_) if largest < NEGLIGIBLE => RepeatBenefit::Only,
        Some(s) if s >= MOST => RepeatBenefit::Most,
        Some(s) if s >= LITTLE => RepeatBenefit::Some,
        Some(_) => RepeatBenefit::Little,
    }
}

/// Half an error takes three quarters of its share from the variance.
fn largest(origin: &ErrorOrigin, share: f64) -> LargestSource {
    LargestSource { origin: origin.clone(), share, narrower: 1.0 - (1.0 - 0.75 * share).sqrt() }
}

/// Instruments whose errors are not noticed, the largest of them, by name.
fn negligible(shared: &[(ErrorOrigin, f64)]) -> Vec<ErrorOrigin> {
    let small = shared.iter().filter(|(_, share)| *share < NEGLIGIBLE).map(|(origin, _)| origin);
    let mut named: Vec<ErrorOrigin> =
        small.filter(|origin| matches!(origin, ErrorOrigin::Instrument(_))).take(MOST_NAMED).cloned().collect();
    named.sort_unstable();
    named
}

fn shares(groups: &[&GroupResult], sources: &ErrorSources) -> Shares {
    let mut scatter = 0.0;
    let mut by_origin: BTreeMap<ErrorOrigin, f64> = BTreeMap::new();
    let weight = 1.0 / groups.len() as f64;
    for group in groups {
        let variance = group.traced.std_uncertainty().powi(2);
        for (source, part) in group.traced.parts.iter().filter(|_| variance > 0.0) {
            let share = weight * part * part / variance;
            match sources.get(source) {
                Some(_) if source.starts_with("scatter:") => scatter += share,
                Some(info) if info.shared => {
                    *by_origin.entry(error_origin(source)).or_insert(0.0) += share;
                }
                _ => {}
            }
        }
    }
    let mut shared: Vec<(ErrorOrigin, f64)> = by_origin.into_iter().collect();
    shared.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    Shares { scatter, shared }
}
