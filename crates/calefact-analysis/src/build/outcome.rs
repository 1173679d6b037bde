//! One output of many burns: its mean with the errors they share and those of the law, and the interval for the next burn.

use super::changed::{Changed, LAW_SOURCES};
use crate::result::{BuildOutcome, BurnScatter, OperatingBurn};
use calefact_stats::contrast::cautious_dof;
use calefact_stats::dist::t_quantile;
use calefact_stats::group::{GroupMean, Scatter};
use calefact_stats::{Bounds, ErrorSources, Estimate, Interval, Shape, Source, SourceInfo, UncertainValue};
use std::collections::BTreeMap;

/// Name of the scatter between burns among the sources.
const SCATTER: &str = "scatter";

/// Burns with what each would have given.
pub(super) type Burns<'b> = [(&'b OperatingBurn, Changed)];

/// Scatter of an output between burns, from two burns on.
pub(super) fn scatter(burns: &Burns<'_>, output: usize) -> Option<Scatter> {
    group(burns, output)?.summary.scatter
}

/// Where the scatter of so many burns is from.
pub(super) fn origin(burns: usize, borrowed: Option<Scatter>) -> BurnScatter {
    match (burns, borrowed) {
        (2.., _) => BurnScatter::Own,
        (_, Some(_)) => BurnScatter::Borrowed,
        _ => BurnScatter::Unknown,
    }
}

/// An output of the burns in a unit, within bounds. The scatter of other combinations stands for that of a single burn.
pub(super) fn outcome(
    burns: &Burns<'_>,
    output: usize,
    borrowed: Option<Scatter>,
    (unit, bounds): (&'static str, Bounds),
    confidence: f64,
) -> Option<BuildOutcome> {
    let group = group(burns, output)?;
    let (value, u) = (group.mean.value, group.mean.std_uncertainty());
    let (own_next, of_mean) = match (group.summary.scatter, borrowed) {
        (Some(_), _) => (group.prediction_interval(confidence), (u, group.dof)),
        (None, Some(s)) => {
            let about = |variance: f64, parts: [(f64, f64); 2]| (variance.sqrt(), cautious_dof(parts));
            let (own, known) = (s.sd * s.sd, (u, group.dof));
            let mean = about(u.mul_add(u, own), [(s.sd, s.dof), known]);
            let next = about(u.mul_add(u, 2.0 * own), [(s.sd * 2.0_f64.sqrt(), s.dof), known]);
            (Some(interval(value, next, confidence)), mean)
        }
        (None, None) => (None, (u, group.dof)),
    };
    let mean = Estimate::student(value, unit, of_mean.0, of_mean.1, confidence).within(bounds);
    Some(BuildOutcome { mean, next: own_next.map(|next| bounds.part(next)) })
}

fn interval(value: f64, (u, dof): (f64, f64), confidence: f64) -> Interval {
    let half = t_quantile(0.5 + 0.5 * confidence, dof) * u;
    Interval { lower: value - half, upper: value + half, confidence }
}

/// The mean of an output with its parts; `None` where an error cannot be followed.
fn group(burns: &Burns<'_>, output: usize) -> Option<GroupMean> {
    let shared = shared_parts(burns, output);
    if shared.values().any(|part| !part.is_finite()) {
        return None;
    }
    let book = ErrorSources::new();
    match burns {
        [] => None,
        [(burn, changed)] => {
            let (own, book) = own_parts(burn, changed, output);
            let parts = shared.into_iter().chain(own).collect::<BTreeMap<_, _>>().into_iter().collect();
            let single = UncertainValue { value: changed.outputs[output], parts };
            Some(GroupMean::single(&single, |source| book.get(source)))
        }
        _ => {
            let values: Vec<f64> = burns.iter().map(|(_, changed)| changed.outputs[output]).collect();
            GroupMean::repeated(&values, shared.into_iter().collect(), &book, SCATTER)
        }
    }
}

/// Parts of the mean by source: errors of instruments and of the law, which burns share.
fn shared_parts(burns: &Burns<'_>, output: usize) -> BTreeMap<Source, f64> {
    let mut by_number: BTreeMap<u32, f64> = BTreeMap::new();
    let mut by_law = [0.0; LAW_SOURCES.len()];
    let weight = 1.0 / burns.len() as f64;
    for (burn, changed) in burns {
        for (source, parts) in &burn.shared {
            let part: f64 = parts.iter().zip(&changed.slopes).map(|(p, slope)| p * slope[output]).sum();
            *by_number.entry(*source).or_default() += weight * part;
        }
        for (sum, part) in by_law.iter_mut().zip(&changed.law_parts) {
            *sum += weight * part[output];
        }
    }
    let numbered = by_number.into_iter().map(|(number, part)| (format!("shared:{number}").into(), part));
    numbered.chain(LAW_SOURCES.into_iter().map(Into::into).zip(by_law)).collect()
}

/// Parts that are one burn's alone, with their degrees of freedom.
fn own_parts(burn: &OperatingBurn, changed: &Changed, output: usize) -> (BTreeMap<Source, f64>, ErrorSources) {
    let source = |k: usize| -> Source { format!("own:{k}").into() };
    let parts = changed.slopes.iter().enumerate().map(|(k, slope)| (source(k), burn.own[k] * slope[output])).collect();
    let info = |dof: f64| SourceInfo { shared: false, dof, shape: Shape::Normal };
    (parts, burn.own_dof.iter().enumerate().map(|(k, dof)| (source(k), info(*dof))).collect())
}
