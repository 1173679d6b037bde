//! Reducing one trial: log and register row in, estimates out.
//!
//! Steps: window -> features of the log -> inputs with their errors -> fits and their random errors -> measurement model
//! propagated -> estimates, checks, curve. Shared errors stay named, so that comparing can let them cancel.

pub mod checks;
pub mod curve;
pub mod estimates;
pub mod features;
pub mod fits;
pub mod inputs;
pub mod model;
pub mod monte_carlo;
pub mod slots;

use crate::context::Context;
use crate::finding::Finding;
use crate::heat_path::{self, Burn};
use crate::phases::Fire;
use crate::result::{Conditions, Heater, TrialResult, VesselLoss};
use crate::rig::Rig;
use crate::series::{self, Series};
use crate::settings::Settings;
use crate::window;
use calefact_data::{Apparatus, Channel, Readings, RegisterRow, TrialKind, Water};
use calefact_stats::ErrorSources;
use features::{Capacity, Features};
use inputs::Inputs;
use model::Model;
use slots::Slot;

/// Reduces the trials of one dataset. Holds nothing that changes: trials can be reduced in any order, in parallel.
#[derive(Debug, Clone)]
pub struct Reducer<'a> {
    context: Context<'a>,
    rig_sources: ErrorSources,
}

impl<'a> Reducer<'a> {
    /// A reducer for these settings and apparatus, with the loss coefficients known so far.
    pub fn new(settings: &'a Settings, apparatus: &'a Apparatus, losses: &'a [VesselLoss]) -> Self {
        Self { context: Context::new(settings, apparatus, losses, None), rig_sources: ErrorSources::new() }
    }

    /// The same with a rig pooled from reference-heater trials, used as the settings say; its sources go with every trial.
    #[must_use]
    pub fn with_reference_heater(mut self, rig: Option<&Rig>) -> Self {
        if let Some((ratio, sources)) = rig.and_then(|r| r.used(self.context.settings.rig_check)) {
            self.context.book.extend(sources.clone());
            self.context.rig = Some(ratio);
            self.rig_sources = sources;
        }
        self
    }

    /// Every source of error that trials share.
    pub fn sources(&self) -> &ErrorSources {
        &self.context.book
    }

    /// A trial whose log could not be read: findings only.
    pub fn unreadable(&self, row: &RegisterRow, findings: Vec<Finding>) -> TrialResult {
        named(TrialResult::empty(row.clone(), 0, findings))
    }

    /// Reduces a trial. Findings of reading are handed on, those of the reduction added; all name the trial.
    pub fn reduce(&self, row: &RegisterRow, readings: &Readings, findings: Vec<Finding>) -> TrialResult {
        named(self.reduced(row, readings, findings))
    }

    fn reduced(&self, row: &RegisterRow, readings: &Readings, findings: Vec<Finding>) -> TrialResult {
        let mut result = TrialResult::empty(row.clone(), readings.len(), findings);
        let series = Series::from_readings(readings, row.ambient);
        let span = match window::find(&series, readings, row.kind, self.context.settings) {
            Ok(span) => span,
            Err(finding) => {
                result.findings.push(place(*finding, row));
                return result;
            }
        };
        let cut = series.between(span.start, span.end);
        let basics = features::basics(&cut, span, matches!(row.water, Water::Mass(_)), series.tank[0]);
        let inputs = Inputs::new(row, &self.context);
        let mut work = Work { row, readings, window: &cut, features: basics, inputs, fire: Fire::default() };
        work.mean_power();
        if row.kind == TrialKind::Burn {
            work.fire = Fire::find(readings, &series, work.capacity().loss_rate(work.features.start_c));
        }
        fits::fit(&mut work, &self.context, &mut result);
        if row.kind == TrialKind::ReferenceHeater {
            result.heater = Some(Heater {
                power: work.inputs.value(Slot::Power),
                capacity: work.capacity().at(60.0),
                rises: cut.rises(crate::fit::constant_loss::STEP),
            });
        }
        let Work { features, inputs, fire, .. } = work;
        result.conditions = conditions(&features, &inputs);
        let model = Model::new(row.kind, features, inputs.gross_extra, self.context.settings);
        estimates::fill(&model, &inputs, &self.context, &mut result);
        let burn = Burn {
            row,
            readings,
            series: &series,
            model: &model,
            inputs: &inputs,
            context: &self.context,
            fire: &fire,
        };
        heat_path::extend(&burn, &mut result);
        result.curve = curve::thin(&series, span, &model, &inputs);
        let found = checks::after(&result, &series, &self.context);
        result.findings.extend(found);
        result.sources.extend(inputs.own);
        result.sources.extend(self.rig_sources.clone());
        result
    }
}

/// What a comparison may adjust for, each where known.
fn conditions(features: &Features, inputs: &Inputs) -> Conditions {
    let known = |v: f64| v.is_finite().then_some(v);
    Conditions {
        start_temperature: known(features.start_c),
        air_temperature: known(features.air_mean),
        fuel_moisture: known(inputs.value(Slot::Moisture)),
    }
}

/// A trial on its way through the reduction.
pub(crate) struct Work<'w> {
    /// Register row.
    pub(crate) row: &'w RegisterRow,
    /// Its log.
    pub(crate) readings: &'w Readings,
    /// Tank curve over the window.
    pub(crate) window: &'w Series,
    /// Features so far.
    pub(crate) features: Features,
    /// Inputs so far.
    pub(crate) inputs: Inputs,
    /// What the log shows of the fire of a burn.
    pub(crate) fire: Fire,
}

impl Work<'_> {
    /// Heat capacity and loss coefficient at their best estimates.
    pub(crate) fn capacity(&self) -> Capacity {
        self.inputs.capacity(&self.features)
    }

    /// What of a time range lies inside the window, if that holds enough readings for a line.
    pub(crate) fn inside(&self, (from, to): (f64, f64)) -> Option<(f64, f64)> {
        let t = &self.window.t;
        let part = (from.max(*t.first()?), to.min(*t.last()?));
        (series::between(t, part.0, part.1).len() >= 3).then_some(part)
    }

    /// Where the log has a `power` column, its time average over the window takes the place of `heater_power`.
    fn mean_power(&mut self) {
        let Some(power) = self.readings.channel(Channel::Power) else { return };
        if self.row.kind != TrialKind::ReferenceHeater || !power.iter().any(|p| p.is_finite()) {
            return;
        }
        let filled = Series { t: self.readings.elapsed_s.clone(), tank: power.to_vec(), air: Vec::new() }.finite();
        let (Some(&start), Some(&end)) = (self.window.t.first(), self.window.t.last()) else { return };
        let cut = filled.between(start, end);
        let mean = cut.tank_integral().last().copied().unwrap_or(f64::NAN) / (end - start);
        let mut slot = self.inputs.slots[Slot::Power as usize].clone();
        slot.value = mean;
        self.inputs.set(Slot::Power, slot);
    }
}

/// The result with the trial named by every finding.
fn named(mut result: TrialResult) -> TrialResult {
    let id = &result.row.trial;
    result.findings.iter_mut().for_each(|f| _ = f.trial.get_or_insert_with(|| id.clone()));
    result
}

/// Adds trial and log to a finding of the reduction.
fn place(finding: Finding, row: &RegisterRow) -> Finding {
    let log = row.log.clone();
    finding.trial(row.trial.clone()).at(log, None, None).action("trial left out")
}
