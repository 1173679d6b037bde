//! Figures of several rigs together: a random effect of the rig, whose scatter is estimated and shown. Never a plain average.
//!
//! Model, in logarithms: y_i = mu + b_i + e_i with b_i of variance tau^2 between rigs and e_i of the uncertainty of rig i's mean.
//! tau^2 by restricted maximum likelihood, the mean by Hartung & Knapp ([`calefact_stats::pooling`]); a new rig lies within
//! mu -/+ t(k - 2) sqrt(tau^2 + u^2) (J. P. T. Higgins, S. G. Thompson & D. J. Spiegelhalter 2009, J. R. Stat. Soc. A 172:137).

use crate::result::{BookEntry, BookLine, BookMeasure, CombinationIds, RigsLine};
use calefact_stats::Interval;
use calefact_stats::dist::{normal_quantile, t_quantile};
use calefact_stats::pooling::{IntervalMethod, Study, Tau2Method, pool};
use libm::{exp, log};
use std::collections::BTreeSet;

/// A figure of a rig.
type Figure<'e> = (&'e BookEntry, &'e BookLine);

/// Every figure that two rigs or more have.
pub(super) fn lines(entries: &[BookEntry], level: f64) -> Vec<RigsLine> {
    let mut combinations: Vec<&CombinationIds> = Vec::new();
    for entry in entries {
        if !combinations.contains(&&entry.combination) {
            combinations.push(&entry.combination);
        }
    }
    combinations.into_iter().flat_map(|ids| of_combination(entries, ids, level)).collect()
}

fn of_combination(entries: &[BookEntry], ids: &CombinationIds, level: f64) -> Vec<RigsLine> {
    let entries: Vec<&BookEntry> = entries.iter().filter(|e| e.combination == *ids).collect();
    let all = || entries.iter().flat_map(|entry| entry.lines.iter().map(|line| (*entry, line)));
    let mut found: Vec<RigsLine> = Vec::new();
    for (place, first) in all().enumerate() {
        if all().take(place).any(|earlier| is_same_figure(earlier, first)) {
            continue;
        }
        let of_rig = |entry| figure(entry, first.1);
        let known = |(_, line): &Figure<'_>| line.spread.mean.upper.is_finite();
        let same: Vec<Figure<'_>> =
            entries.iter().copied().filter_map(of_rig).filter(|f| is_same_figure(first, *f)).filter(known).collect();
        found.extend(together(&same, level));
    }
    found
}

/// The figure of a rig that is like a line.
fn figure<'e>(entry: &'e BookEntry, line: &BookLine) -> Option<Figure<'e>> {
    let place = entry.place(&line.work, line.measure)?;
    Some((entry, &entry.lines[place]))
}

/// Whether two figures can be combined: the same work, the same measure and, of a cost, the same currency.
fn is_same_figure((a_entry, a): Figure<'_>, (b_entry, b): Figure<'_>) -> bool {
    let same_currency = a.measure != BookMeasure::Cost || a_entry.currency == b_entry.currency;
    a.measure == b.measure && a.work.is_like(&b.work) && same_currency
}

/// One figure of several rigs; none of one rig, or where a rig has no uncertainty.
fn together(figures: &[Figure<'_>], level: f64) -> Option<RigsLine> {
    let (entry, line) = figures.first()?;
    let studies: Vec<Study> = figures.iter().map(|(_, line)| study(line)).collect();
    let pooled = pool(&studies, Tau2Method::Reml, IntervalMethod::HartungKnapp).ok()?;
    let rigs = figures.iter().map(|(entry, _)| &entry.rig).collect::<BTreeSet<_>>().len();
    let around = |u: f64, dof: f64| {
        let half = t_quantile(0.5 + 0.5 * level, dof) * u;
        Interval { lower: exp(pooled.mean - half), upper: exp(pooled.mean + half), confidence: level }
    };
    // Rigs that agree by chance are known no better than their own intervals say (C. Roever, G. Knapp and T. Friede, 2015).
    let weights: f64 = studies.iter().map(|s| 1.0 / (s.variance + pooled.tau2)).sum();
    let u = pooled.std_uncertainty.max((1.0 / weights).sqrt());
    Some(RigsLine {
        combination: entry.combination.clone(),
        work: line.work.clone(),
        measure: line.measure,
        currency: entry.currency.clone().filter(|_| line.measure == BookMeasure::Cost),
        rigs,
        burns: figures.iter().map(|(_, line)| line.n).sum(),
        value: exp(pooled.mean),
        mean: around(u, pooled.dof),
        new_rig: (rigs > 2).then(|| around((pooled.tau2 + u * u).sqrt(), pooled.dof - 1.0)),
        between: pooled.tau2.sqrt(),
    })
}

/// Logarithm of a figure; its variance from the width of the interval as of a normal distribution, which is on the wide side
/// where the interval is Student's.
fn study(line: &BookLine) -> Study {
    let Interval { lower, upper, confidence } = line.spread.mean;
    let u = log(upper / lower) / (2.0 * normal_quantile(0.5 + 0.5 * confidence));
    Study { value: log(line.spread.value), variance: u * u }
}

#[cfg(test)]
mod tests;
