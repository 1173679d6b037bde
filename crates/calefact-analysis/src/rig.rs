//! The rig's bias, pooled over its reference-heater trials: measured over metered heat.
//!
//! Metered electricity is known to a per cent; what the vessel's probes and water make of it shows whether the rig reads
//! true. The pooled ratio with its sources is what [`RigCheck::Correct`] divides
//! delivered heat by. For [`RigCheck::Bound`] the distance from one becomes an
//! uncertainty and the ratio one: see [`Rig::used`].

use crate::Quantity;
use crate::context::shared_sources;
use crate::fact::ErrorSource;
use crate::result::TrialResult;
use crate::settings::{RigCheck, Settings};
use calefact_data::{Apparatus, TrialKind};
use calefact_stats::group::GroupMean;
use calefact_stats::{ErrorSources, Estimate, Shape, SourceInfo, UncertainValue};
use serde::Serialize;

/// The pooled ratio.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Rig {
    /// Reference-heater trials it rests on.
    pub trials: Vec<String>,
    /// Measured over metered heat, with interval.
    pub estimate: Estimate,
    /// The same with parts by source.
    #[serde(skip)]
    pub traced: UncertainValue,
    /// Sources it brings, all shared by the trials that use it.
    #[serde(skip)]
    pub sources: ErrorSources,
}

/// Pools the ratios of the usable reference-heater trials; scatter shrinks with their number, shared errors do not.
/// `None` without any.
pub fn pool(results: &[TrialResult], apparatus: &Apparatus, settings: &Settings) -> Option<Rig> {
    let asked = |r: &&TrialResult| r.row.kind == TrialKind::ReferenceHeater && r.usable();
    let used: Vec<(&TrialResult, &UncertainValue)> = results
        .iter()
        .filter(asked)
        .filter_map(|r| Some((r, &r.get(Quantity::ReferenceHeaterRatio)?.traced)))
        .collect();
    let traced: Vec<UncertainValue> = used.iter().map(|(_, t)| (*t).clone()).collect();
    let mut book = shared_sources(apparatus);
    for (result, _) in &used {
        book.extend(result.sources.clone());
    }
    let group = GroupMean::from_trials(&traced, &book, ErrorSource::HeaterScatter.key())?;
    let (value, u) = (group.mean.value, group.mean.std_uncertainty());
    Some(Rig {
        trials: used.iter().map(|(r, _)| r.row.trial.clone()).collect(),
        estimate: Estimate::student(value, "1", u, group.dof, settings.level)
            .within(Quantity::ReferenceHeaterRatio.bounds()),
        sources: sources(&group, &book),
        traced: group.mean,
    })
}

/// Whatever the pooled value depends on is shared by all trials that use it.
fn sources(group: &GroupMean, book: &ErrorSources) -> ErrorSources {
    let scatter = group.scatter.clone();
    let known = group.mean.parts.iter().filter_map(|(s, _)| Some((s.clone(), book.get(s)?.clone())));
    known.chain(scatter).map(|(s, info)| (s, SourceInfo { shared: true, ..info })).collect()
}

impl Rig {
    /// The ratio as the pipeline uses it, with its sources: not at all, as a bound (one, with the distance from one as a
    /// standard uncertainty beside its own), or as a correction.
    pub fn used(&self, check: RigCheck) -> Option<(UncertainValue, ErrorSources)> {
        match check {
            RigCheck::Report => None,
            RigCheck::Correct => Some((self.traced.clone(), self.sources.clone())),
            RigCheck::Bound => {
                let distance = libm::hypot(self.traced.value - 1.0, self.traced.std_uncertainty());
                let info = SourceInfo { shared: true, dof: f64::INFINITY, shape: Shape::Normal };
                let source = ErrorSource::RigDistance.key();
                Some((UncertainValue::new(1.0, source.clone(), distance), ErrorSources::from([(source, info)])))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rig(value: f64, u: f64) -> Rig {
        let traced = UncertainValue::new(value, "x", u);
        let estimate = Estimate::student(value, "1", u, f64::INFINITY, 0.95);
        Rig { trials: vec!["h1".into()], estimate, traced, sources: ErrorSources::new() }
    }

    #[test]
    fn a_bound_is_the_distance_and_its_own_uncertainty() {
        let (used, book) = rig(0.97, 0.04).used(RigCheck::Bound).expect("used");
        assert!((used.value - 1.0).abs() < 1e-12 && (used.std_uncertainty() - 0.05).abs() < 1e-12);
        assert_eq!(book.len(), 1);
        assert!(rig(0.97, 0.04).used(RigCheck::Report).is_none());
        assert!((rig(0.97, 0.04).used(RigCheck::Correct).expect("used").0.value - 0.97).abs() < 1e-12);
    }
}
