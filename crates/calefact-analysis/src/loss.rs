//! The loss coefficient of a vessel, pooled over its standing-loss trials.

use crate::Quantity;
use crate::context::shared_sources;
use crate::fact::ErrorSource;
use crate::result::{TrialResult, VesselLoss};
use crate::settings::Settings;
use calefact_data::Apparatus;
use calefact_stats::group::GroupMean;
use calefact_stats::{ErrorSources, Estimate, UncertainValue};

/// Pools the loss coefficients of the usable standing-loss trials by vessel, in the order of vessel ids; a vessel without
/// any takes the one its entry states, if any. Scatter between trials shrinks with their number, shared errors do not.
pub fn pool(results: &[TrialResult], apparatus: &Apparatus, settings: &Settings) -> Vec<VesselLoss> {
    apparatus
        .vessels
        .keys()
        .filter_map(|v| measured(v, results, apparatus, settings).or_else(|| stated(v, apparatus, settings)))
        .collect()
}

fn measured(vessel: &str, results: &[TrialResult], apparatus: &Apparatus, settings: &Settings) -> Option<VesselLoss> {
    let used: Vec<&TrialResult> = results
        .iter()
        .filter(|r| r.row.vessel == vessel && r.usable() && r.get(Quantity::LossCoefficient).is_some())
        .collect();
    let traced: Vec<UncertainValue> =
        used.iter().filter_map(|r| r.get(Quantity::LossCoefficient)).map(|e| e.traced.clone()).collect();
    let mut book = shared_sources(apparatus);
    for result in &used {
        book.extend(result.sources.clone());
    }
    let group = GroupMean::from_trials(&traced, &book, ErrorSource::LossScatter { vessel: vessel.to_owned() }.key())?;
    let mut sources: ErrorSources = group.scatter.clone().into_iter().collect();
    for (source, _) in &group.mean.parts {
        if let Some(info) = book.get(source) {
            // Whatever the pooled value depends on is shared by all trials that use it.
            sources.insert(source.clone(), calefact_stats::SourceInfo { shared: true, ..info.clone() });
        }
    }
    let trials = used.iter().map(|r| r.row.trial.clone()).collect();
    Some(finish(vessel, trials, group.mean, group.dof, sources, settings))
}

fn stated(vessel: &str, apparatus: &Apparatus, settings: &Settings) -> Option<VesselLoss> {
    let loss = apparatus.vessels.get(vessel)?.loss_coefficient?;
    let source = ErrorSource::StatedLoss { vessel: vessel.to_owned() }.key();
    let traced = UncertainValue::new(loss.value, source, loss.std_uncertainty.unwrap_or(0.0));
    Some(finish(vessel, Vec::new(), traced, f64::INFINITY, ErrorSources::new(), settings))
}

fn finish(
    vessel: &str,
    trials: Vec<String>,
    traced: UncertainValue,
    dof: f64,
    sources: ErrorSources,
    settings: &Settings,
) -> VesselLoss {
    let estimate = Estimate::student(traced.value, "W/K", traced.std_uncertainty(), dof, settings.level)
        .within(Quantity::LossCoefficient.bounds());
    VesselLoss { vessel: vessel.to_owned(), trials, estimate, traced, sources }
}
