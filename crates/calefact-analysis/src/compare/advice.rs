//! What would narrow the intervals of a comparison: more trials, or which better instrument.

use super::error_origin::error_origin;
use crate::Quantity;
use crate::fact::ErrorSource;
use crate::result::{
    Advice, Comparison, Contrast, ContrastKind, Cross, ErrorOrigin, LargestSource, Narrow, RepeatBenefit, Subject,
};
use calefact_stats::{ErrorSources, UncertainValue};
use std::collections::BTreeMap;

/// Share of the variance below which a better instrument would not be noticed.
const NEGLIGIBLE: f64 = 0.02;
/// How many instruments are named as negligible.
const MOST_NAMED: usize = 4;
/// Scatter above this share of the variance: more trials help most.
const MOST: f64 = 0.6;
/// Scatter below this share: more trials hardly help.
const LITTLE: f64 = 0.2;

/// Values whose intervals are to be narrower: the differences that are compared, the trend, else the means.
struct Target<'c> {
    subject: Subject,
    values: Vec<&'c UncertainValue>,
    /// Whether the scatter between trials is known.
    repeated: bool,
}

/// Shares of the variance of some values, averaged over them.
struct Shares {
    /// Share of the scatter between trials.
    scatter: f64,
    /// Share of each shared error, largest first; an instrument counts with all its errors together.
    shared: Vec<(ErrorOrigin, f64)>,
}

/// Advice on the main quantity of a comparison.
pub(crate) fn advice(comparison: &Comparison, sources: &ErrorSources) -> Vec<Advice> {
    let Some(quantity) = comparison.groups.first().map(|g| g.quantity) else { return Vec::new() };
    if let Some(cross) = cross(comparison, quantity) {
        return vec![Advice::Cross(cross)];
    }
    let target = target(comparison, quantity);
    let Shares { scatter, shared } = shares(&target.values, sources);
    let Some((origin, share)) = shared.first() else { return Vec::new() };
    let scatter = target.repeated.then_some(scatter);
    let repeats = benefit(scatter, *share);
    let matters = !matches!(repeats, RepeatBenefit::Unknown | RepeatBenefit::Only);
    let subject = target.subject;
    let narrow = Narrow {
        factor: comparison.factor.clone(),
        only: comparison.only.clone(),
        kind: comparison.kind,
        quantity,
        subject,
        scatter,
        repeats,
        largest: matters.then(|| largest(origin, *share)),
    };
    let instruments = negligible(&shared);
    let negligible = (!instruments.is_empty()).then_some(Advice::Negligible { quantity, subject, instruments });
    [Advice::Narrow(narrow)].into_iter().chain(negligible).collect()
}

/// The first pair of levels that other columns change together with, where no pair is free of them.
fn cross(comparison: &Comparison, quantity: Quantity) -> Option<Cross> {
    let pairs: Vec<&Contrast> = comparison.contrasts.iter().filter(|c| c.quantity == quantity).collect();
    let first = pairs.first().filter(|_| pairs.iter().all(|c| !c.confounded.is_empty()))?;
    Some(Cross {
        factor: comparison.factor.clone(),
        only: comparison.only.clone(),
        kind: comparison.kind,
        a: first.a.clone(),
        b: first.b.clone(),
        columns: first.confounded.clone(),
    })
}

fn target(comparison: &Comparison, quantity: Quantity) -> Target<'_> {
    let is_open =
        |c: &&Contrast| c.quantity == quantity && c.kind == ContrastKind::Difference && c.confounded.is_empty();
    let differences: Vec<&UncertainValue> = comparison.contrasts.iter().filter(is_open).map(|c| &c.traced).collect();
    let trend = comparison.trends.iter().find(|t| t.quantity == quantity && t.factor == comparison.factor);
    let subject = match (differences.len(), trend) {
        (0, Some(trend)) => return Target { subject: Subject::Trend, values: vec![&trend.traced], repeated: true },
        (0, None) => Subject::Means,
        (1, _) => Subject::Difference,
        _ => Subject::Differences,
    };
    if subject != Subject::Means {
        return Target { subject, values: differences, repeated: true };
    }
    let groups = || comparison.groups.iter().filter(|g| g.quantity == quantity);
    let repeated = groups().any(|g| g.trials.len() > 1);
    Target { subject, values: groups().map(|g| &g.traced).collect(), repeated }
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

fn shares(values: &[&UncertainValue], sources: &ErrorSources) -> Shares {
    let mut scatter = 0.0;
    let mut by_origin: BTreeMap<ErrorOrigin, f64> = BTreeMap::new();
    let weight = 1.0 / values.len() as f64;
    for value in values {
        let variance = value.std_uncertainty().powi(2);
        for (source, part) in value.parts.iter().filter(|_| variance > 0.0) {
            let share = weight * part * part / variance;
            if ErrorSource::from_key(source) == ErrorSource::TrialScatter {
                scatter += share;
            } else if sources.get(source).is_some_and(|info| info.shared) {
                *by_origin.entry(error_origin(source)).or_insert(0.0) += share;
            }
        }
    }
    let mut shared: Vec<(ErrorOrigin, f64)> = by_origin.into_iter().collect();
    shared.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    Shares { scatter, shared }
}
