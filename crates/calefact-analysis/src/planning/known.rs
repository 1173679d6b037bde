//! Knowledge of a comparison from the burns so far or from guesses: mean, scatter between burns, and the errors that burns share.

use super::request::PlanRequest;
use crate::Quantity;
use crate::compare::error_origin;
use crate::fact::ErrorSource;
use crate::result::{Comparison, Contrast, ContrastKind, ErrorOrigin, GroupResult, PlannedScatter};
use calefact_stats::dist::chi2_quantile;
use std::collections::BTreeMap;

/// Chance that the scatter is below its cautious value.
const CAUTION: f64 = 0.8;

/// Knowledge of the main quantity of a comparison.
#[derive(Debug, Clone, Default)]
pub(super) struct Known {
    /// Mean of the levels.
    pub(super) mean: Option<f64>,
    /// Scatter between the trials of a level.
    pub(super) scatter: Option<PlannedScatter>,
    /// Whether the mean is unknown and all sizes are shares of it: it then counts as 1.
    pub(super) relative: bool,
    /// Variance of a difference by the origin of the error that trials share; none where no trial tells.
    pub(super) shared: Option<BTreeMap<ErrorOrigin, f64>>,
}

impl Known {
    /// From the trials, where there are any; a stated scatter goes before what they show, a stated mean only where there are none.
    pub(super) fn new(comparison: Option<&Comparison>, quantity: Quantity, request: &PlanRequest) -> Self {
        let groups: Vec<&GroupResult> =
            comparison.iter().flat_map(|c| &c.groups).filter(|g| g.quantity == quantity).collect();
        let pairs = comparison.map(|c| differences(c, quantity)).unwrap_or_default();
        let seen = groups.iter().map(|g| g.mean.value).sum::<f64>() / groups.len() as f64;
        let mean = seen.is_finite().then_some(seen).or(request.mean.get(&quantity).copied());
        let relative = mean.is_none() && request.has_shares_only(quantity);
        let mean = if relative { Some(1.0) } else { mean };
        let guess = request.scatter.get(&quantity).and_then(|s| s.amount(mean));
        let guess = guess.map(|sd| PlannedScatter { sd, dof: None });
        let scatter = guess.or_else(|| of_pairs(&pairs)).or_else(|| of_groups(&groups));
        let shared = pairs.iter().map(|c| shared(c)).max_by(|a, b| total(a).total_cmp(&total(b)));
        Self { mean, scatter, relative, shared }
    }

    /// The same where the difference of one pair alone is planned for: what it shares counts, not what the widest pair does.
    pub(super) fn of_pair(&self, pair: &Contrast) -> Self {
        Self { shared: Some(shared(pair)), ..self.clone() }
    }

    /// The part of the standard uncertainty of a difference that no number of trials reduces, with the error of one origin in
    /// this share of what it is.
    pub(super) fn lasting(&self, changed: Option<(&ErrorOrigin, f64)>) -> f64 {
        let factor =
            |origin: &ErrorOrigin| changed.filter(|(o, _)| *o == origin).map_or(1.0, |(_, share)| share * share);
        self.shared.iter().flatten().map(|(origin, variance)| factor(origin) * variance).sum::<f64>().sqrt()
    }

    /// The largest shared error and its share of their variance.
    pub(super) fn largest(&self) -> Option<(ErrorOrigin, f64)> {
        let shared = self.shared.as_ref()?;
        let (origin, variance) = shared.iter().max_by(|a, b| a.1.total_cmp(b.1)).filter(|(_, v)| **v > 0.0)?;
        Some((origin.clone(), variance / total(shared)))
    }
}

/// Differences of a quantity.
pub(super) fn differences(comparison: &Comparison, quantity: Quantity) -> Vec<&Contrast> {
    let wanted = |c: &&Contrast| c.quantity == quantity && c.kind == ContrastKind::Difference;
    comparison.contrasts.iter().filter(wanted).collect()
}

/// The upper one-sided 80 % limit of a standard deviation, s sqrt(nu / chi2(0.2; nu)): numbers planned with it reach their
/// power in four of five studies (Browne 1995, Stat. Med. 14:1933, from memory).
pub(super) fn cautious_sd(scatter: PlannedScatter) -> Option<f64> {
    let dof = scatter.dof.filter(|dof| dof.is_finite() && *dof >= 1.0)?;
    Some(scatter.sd * (dof / chi2_quantile(1.0 - CAUTION, dof)).sqrt())
}

fn total(shared: &BTreeMap<ErrorOrigin, f64>) -> f64 {
    shared.values().sum()
}

fn is_scatter(source: &str) -> bool {
    ErrorSource::from_key(source) == ErrorSource::TrialScatter
}

fn shared(contrast: &Contrast) -> BTreeMap<ErrorOrigin, f64> {
    let mut by_origin = BTreeMap::new();
    for (source, part) in contrast.traced.parts.iter().filter(|(source, _)| !is_scatter(source)) {
        *by_origin.entry(error_origin(source)).or_insert(0.0) += part * part;
    }
    by_origin
}

/// Pooled over the pairs: u^2 = s^2 (1/n_a + 1/n_b) of each, weighed by the trials behind it.
fn of_pairs(pairs: &[&Contrast]) -> Option<PlannedScatter> {
    let of_pair = |c: &&Contrast| {
        let variance: f64 = c.traced.parts.iter().filter(|(s, _)| is_scatter(s)).map(|(_, p)| p * p).sum();
        let (a, b) = (c.n.0 as f64, c.n.1 as f64);
        (a + b - 2.0, variance / (1.0 / a + 1.0 / b))
    };
    let all: Vec<(f64, f64)> = pairs.iter().map(of_pair).filter(|(dof, v)| *dof > 0.0 && *v > 0.0).collect();
    let weight: f64 = all.iter().map(|(dof, _)| dof).sum();
    let variance = all.iter().map(|(dof, v)| dof * v).sum::<f64>() / weight;
    // Every trial stands in (levels - 1) pairs.
    let levels = f64::midpoint(1.0, (1.0 + 8.0 * all.len() as f64).sqrt());
    (weight > 0.0).then(|| PlannedScatter { sd: variance.sqrt(), dof: Some(weight / (levels - 1.0).max(1.0)) })
}

fn of_groups(groups: &[&GroupResult]) -> Option<PlannedScatter> {
    let all = groups.iter().filter_map(|g| Some((g.trials.len() as f64 - 1.0, g.between_sd?)));
    let all: Vec<(f64, f64)> = all.filter(|(dof, sd)| *dof > 0.0 && *sd > 0.0).collect();
    let dof: f64 = all.iter().map(|(dof, _)| dof).sum();
    let variance = all.iter().map(|(dof, sd)| dof * sd * sd).sum::<f64>() / dof;
    (dof > 0.0).then(|| PlannedScatter { sd: variance.sqrt(), dof: Some(dof) })
}
