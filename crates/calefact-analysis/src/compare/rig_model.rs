//! Whether reference-heater trials at different powers agree with one constant-loss model of their vessel.

use crate::fact::ComparisonFact;
use crate::finding::Finding;
use crate::fit::constant_loss::{self, ConstantLoss};
use crate::result::TrialSummary;
use calefact_data::TrialKind;
use std::collections::BTreeSet;

/// Relative distance of the fitted heat capacity from the known one above which the model is taken not to fit.
const CAPACITY_LIMIT: f64 = 0.1;

/// A finding for each vessel whose trials one constant-loss model does not explain.
pub(crate) fn findings(trials: &[TrialSummary]) -> Vec<Finding> {
    let heated = |t: &&TrialSummary| t.kind == TrialKind::ReferenceHeater && t.usable() && t.heater.is_some();
    let vessels: BTreeSet<&str> = trials.iter().filter(heated).filter_map(|t| t.level("vessel")).collect();
    let of = |vessel: &str| -> Vec<&TrialSummary> {
        trials.iter().filter(heated).filter(|t| t.level("vessel") == Some(vessel)).collect()
    };
    vessels.into_iter().filter_map(|vessel| judge(vessel, &of(vessel))).collect()
}

fn judge(vessel: &str, trials: &[&TrialSummary]) -> Option<Finding> {
    let powers: Vec<(f64, f64)> =
        trials.iter().filter_map(|t| Some((t.heater.as_ref()?.power, t.heater.as_ref()?.capacity))).collect();
    let (low, high) = powers.iter().fold((f64::INFINITY, 0.0_f64), |(l, h), (p, _)| (l.min(*p), h.max(*p)));
    if high.is_nan() || high < 1.2 * low {
        return None;
    }
    let fit =
        constant_loss::fit(trials.iter().filter_map(|t| t.heater.as_ref().map(|h| (h.power, h.rises.as_slice()))))?;
    let known = powers.iter().map(|(_, c)| c).sum::<f64>() / powers.len() as f64;
    let off = fit.capacity / known - 1.0;
    (known.is_finite() && off.abs() > CAPACITY_LIMIT.max(3.0 * fit.capacity_u / known))
        .then(|| finding(vessel, &fit, known))
}

fn finding(vessel: &str, fit: &ConstantLoss, known: f64) -> Finding {
    Finding::warning(ComparisonFact::ConstantLossMisfit {
        vessel: vessel.to_owned(),
        fitted_capacity: fit.capacity,
        known_capacity: known,
        air_degc: fit.air,
        loss_coefficient: fit.loss_coefficient,
        residual_sd_w: fit.residual_sd,
    })
}
