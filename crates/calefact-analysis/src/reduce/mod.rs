//! Reducing one trial: log and register row in, estimates out.
//!
//! Steps: window -> features of the log -> inputs with their errors -> fits and their random errors -> measurement model
//! propagated -> estimates, checks, curve. Shared errors stay named, so that comparing can let them cancel.

pub(crate) mod checks;
pub(crate) mod curve;
pub(crate) mod estimates;
pub(crate) mod features;
pub(crate) mod fits;
pub(crate) mod inputs;
pub(crate) mod model;
pub(crate) mod monte_carlo;
pub(crate) mod slots;
pub(crate) mod work;

use crate::burn::Burn;
use crate::context::Context;
use crate::finding::Finding;
use crate::heat_path;
use crate::phases::Fire;
use crate::result::{Conditions, Heater, TrialResult, VesselLoss};
use crate::rig::Rig;
use crate::series::Series;
use crate::settings::Settings;
use crate::window;
use calefact_data::{Apparatus, Readings, RegisterRow, TrialKind, Water};
use calefact_stats::ErrorSources;
use features::Features;
use inputs::Inputs;
use model::Model;
use slots::Slot;
use work::Work;

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
            Err(fact) => {
                result.findings.push(Finding::error(fact).at(row.log.clone(), None, None));
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

/// The result with the trial named by every finding.
fn named(mut result: TrialResult) -> TrialResult {
    let id = &result.row.trial;
    result.findings.iter_mut().for_each(|f| _ = f.trial.get_or_insert_with(|| id.clone()));
    result
}
