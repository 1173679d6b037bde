//! Stove, fuel and exchanger: their burns, the mean law and its draws.

use super::draws::{self, Fire, Scatter, SourceDraws};
use crate::assumed::held;
use crate::fact::AssumedInput;
use crate::result::{Combination, Draw, Extent, LawParameter, ScatterOrigin, TrialExtent, TrialSummary};
use crate::shared::{SharedSources, SharedValue};
use calefact_data::TrialKind;
use calefact_stats::{Shape, Source};
use std::collections::{BTreeMap, BTreeSet};

/// Burns from which a combination's own scatter is enough; with fewer, the interval by their own would be several times as
/// wide as burns ever scatter, so that the burns of all combinations stand for it.
pub(crate) const ENOUGH: usize = 5;

/// Levels of stove, fuel and exchanger.
type Key<'t> = [Option<&'t str>; 3];

/// The burns of a combination with their laws.
struct Burns<'t> {
    key: Key<'t>,
    trials: Vec<(&'t TrialSummary, &'t TrialExtent)>,
    fires: Vec<Fire>,
}

impl<'t> Burns<'t> {
    /// The burns of a key. Where some have their wood weighed, those without say nothing of wood and are left out.
    fn new(key: Key<'t>, mut trials: Vec<(&'t TrialSummary, &'t TrialExtent)>) -> Self {
        let is_weighed =
            |(t, _): &(&TrialSummary, _)| t.law(LawParameter::BurnRate).is_some_and(|v| v.value.is_finite());
        if trials.iter().any(is_weighed) {
            trials.retain(is_weighed);
        }
        let value = |t: &TrialSummary, p: LawParameter| t.law(p).map_or(f64::NAN, |v| v.value);
        let fire = |t: &TrialSummary| std::array::from_fn(|i| value(t, LawParameter::ALL[i]));
        let fires = trials.iter().map(|(t, _)| fire(t)).collect();
        Self { key, trials, fires }
    }

    fn mean(&self) -> Fire {
        let mut mean = Fire::default();
        self.fires.iter().for_each(|fire| draws::add(&mut mean, fire, 1.0 / self.fires.len() as f64));
        mean
    }

    /// Scatter about the mean, in the order of the trials' ids: draws do not depend on the order of the register.
    fn scatter(&self) -> Scatter {
        let mean = self.mean();
        let less = |fire: &Fire| {
            let mut residual = *fire;
            draws::add(&mut residual, &mean, -1.0);
            residual.map(|r| if r.is_nan() { 0.0 } else { r })
        };
        let mut by_id: Vec<(&str, &Fire)> = self.ids().zip(&self.fires).collect();
        by_id.sort_by_key(|(id, _)| *id);
        Scatter {
            residuals: by_id.into_iter().map(|(_, fire)| less(fire)).collect(),
            dof: self.fires.len() as f64 - 1.0,
        }
    }

    fn ids(&self) -> impl Iterator<Item = &'t str> {
        self.trials.iter().map(|(t, _)| &*t.trial)
    }

    /// Parts of the mean that its burns share, by source.
    fn shared(&self, shared: &SharedSources) -> BTreeMap<Source, Fire> {
        let weight = 1.0 / self.trials.len() as f64;
        let mut parts: BTreeMap<Source, Fire> = BTreeMap::new();
        for (place, parameter) in LawParameter::ALL.into_iter().take(LawParameter::OF_FIRE).enumerate() {
            let values = self.trials.iter().filter_map(|(t, _)| t.law(parameter));
            for (source, part) in shared.combined(values.map(|v| (v, weight))) {
                parts.entry(source).or_default()[place] = part;
            }
        }
        parts
    }

    fn is_complete(&self) -> bool {
        self.fires.iter().flatten().all(|x| x.is_finite())
    }

    fn name(&self) -> String {
        self.key.map(Option::unwrap_or_default).join(":")
    }
}

/// All combinations that have burns.
pub(super) fn combinations(
    shared: &SharedSources,
    trials: &[TrialSummary],
    sources: &mut SourceDraws<'_>,
) -> Vec<Combination> {
    let all = gathered(trials);
    let mut pooled = Scatter::default();
    let mut repeated: Vec<&Burns<'_>> = all.iter().filter(|b| b.fires.len() > 1 && b.is_complete()).collect();
    repeated.sort_by_key(|b| b.ids().min());
    for scatter in repeated.into_iter().map(Burns::scatter) {
        pooled.residuals.extend(scatter.residuals);
        pooled.dof += scatter.dof;
    }
    all.iter().map(|burns| combination(burns, shared, &pooled, sources)).collect()
}

fn gathered(trials: &[TrialSummary]) -> Vec<Burns<'_>> {
    let burns = trials.iter().filter(|t| t.usable() && t.kind == TrialKind::Burn);
    let with_law = burns.filter_map(|t| Some((t, t.extent.as_deref()?)));
    let mut groups: Vec<(Key<'_>, Vec<_>)> = Vec::new();
    for (trial, extent) in with_law {
        let key = ["stove", "fuel", "exchanger"].map(|factor| trial.level(factor));
        match groups.iter_mut().find(|(k, _)| *k == key) {
            Some((_, group)) => group.push((trial, extent)),
            None => groups.push((key, vec![(trial, extent)])),
        }
    }
    groups.into_iter().map(|(key, group)| Burns::new(key, group)).collect()
}

fn combination(
    burns: &Burns<'_>,
    shared: &SharedSources,
    pooled: &Scatter,
    sources: &mut SourceDraws<'_>,
) -> Combination {
    let own = burns.scatter();
    let (scatter, origin) = match burns.fires.len() {
        n if n >= ENOUGH || (n > 1 && pooled.dof <= own.dof) => (Some(&own), ScatterOrigin::Own),
        _ if pooled.dof > 0.0 => (Some(pooled), ScatterOrigin::Pooled),
        _ => (None, ScatterOrigin::Unknown),
    };
    let parts = burns.shared(shared);
    let (mean, next) = drawn(burns, &parts, scatter, sources);
    let [stove, fuel, exchanger] = burns.key.map(|level| level.map(ToOwned::to_owned));
    let known = |of: fn(&TrialExtent) -> f64| {
        let values: Vec<f64> = burns.trials.iter().map(|(_, e)| of(e)).filter(|x| x.is_finite()).collect();
        values.iter().sum::<f64>() / values.len() as f64
    };
    Combination {
        stove,
        fuel,
        exchanger,
        trials: burns.trials.iter().map(|(t, _)| t.trial.clone()).collect(),
        centre: draws::draw(&burns.mean()),
        mean,
        next,
        scatter: origin,
        extent: extent(&burns.trials),
        kindling_kg: known(|e| e.kindling_kg),
        net_dry: known(|e| e.net_dry),
        price: known(|e| e.price),
        vessel: usual_vessel(&burns.trials),
        assumed: assumed(&parts),
    }
}

/// Draws of the mean and of the next burn.
fn drawn(
    burns: &Burns<'_>,
    parts: &BTreeMap<Source, Fire>,
    scatter: Option<&Scatter>,
    sources: &mut SourceDraws<'_>,
) -> (Vec<Draw>, Vec<Draw>) {
    let mut means = vec![burns.mean(); draws::DRAWS];
    for (source, part) in parts {
        let units = sources.units(source);
        means.iter_mut().zip(units).for_each(|(mean, unit)| draws::add(mean, part, *unit));
    }
    if let [(trial, _)] = burns.trials[..] {
        alone(trial, &mut means);
    }
    let Some(scatter) = scatter else { return (means.iter().map(draws::draw).collect(), Vec::new()) };
    let [of_mean, of_next] = scatter.draws(&format!("scatter:{}", burns.name()));
    let share = 1.0 / (burns.fires.len() as f64).sqrt();
    means.iter_mut().zip(&of_mean).for_each(|(mean, scatter)| draws::add(mean, scatter, share));
    let mut next = means.clone();
    next.iter_mut().zip(&of_next).for_each(|(next, scatter)| draws::add(next, scatter, 1.0));
    (means.iter().map(draws::draw).collect(), next.iter().map(draws::draw).collect())
}

/// The errors of a single burn that are its alone: of several burns the scatter holds them.
fn alone(trial: &TrialSummary, means: &mut [Fire]) {
    for (place, parameter) in LawParameter::ALL.into_iter().take(LawParameter::OF_FIRE).enumerate() {
        let SharedValue { own, own_dof, .. } = trial.law(parameter).unwrap_or_default();
        let units = draws::units_of(&format!("alone:{}:{place}", trial.trial), Shape::Student, own_dof);
        means.iter_mut().zip(units).for_each(|(mean, unit)| mean[place] += own * unit);
    }
}

fn extent(trials: &[(&TrialSummary, &TrialExtent)]) -> Extent {
    let range = |of: fn(&TrialExtent) -> f64| {
        let values = trials.iter().map(|(_, e)| of(e));
        values.fold((f64::NAN, f64::NAN), |(low, high), x| (x.min(low), x.max(high)))
    };
    Extent {
        water_m3: range(|e| e.water_m3),
        stored: range(|e| e.stored),
        hottest: range(|e| e.end_c).1,
        longest_s: range(|e| e.duration_s).1,
        load_kg: range(|e| e.load_kg).1,
    }
}

/// The vessel of most burns; of equally many the first by name.
fn usual_vessel(trials: &[(&TrialSummary, &TrialExtent)]) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for vessel in trials.iter().filter_map(|(t, _)| t.level("vessel")) {
        *counts.entry(vessel).or_default() += 1;
    }
    let most = counts.values().max().copied();
    counts.into_iter().find(|(_, count)| Some(*count) == most).map_or_else(String::new, |(id, _)| id.to_owned())
}

/// Assumed inputs that hold a part of heat flow, fixed time or burn rate.
fn assumed(parts: &BTreeMap<Source, Fire>) -> Vec<AssumedInput> {
    let mut inputs = BTreeSet::new();
    for place in 0..LawParameter::Moisture as usize {
        let of_place: Vec<(Source, f64)> = parts.iter().map(|(s, p)| (s.clone(), p[place])).collect();
        let u = of_place.iter().map(|(_, p)| p * p).sum::<f64>().sqrt();
        inputs.extend(held::inputs(&of_place, u));
    }
    inputs.into_iter().collect()
}
