//! Reducing one trial: log and register row in, estimates out.
//!
//! Steps: window -> features of the log -> inputs with their errors -> fits and their random errors -> measurement model
//! propagated -> estimates, checks, curve. Shared errors stay named, so that comparing can let them cancel.

pub(crate) mod capacity;
pub(crate) mod checks;
pub(crate) mod curve;
pub(crate) mod ends;
pub(crate) mod estimates;
pub(crate) mod features;
pub(crate) mod fits;
pub(crate) mod inputs;
pub(crate) mod law;
pub(crate) mod limits;
pub(crate) mod model;
pub(crate) mod monte_carlo;
pub(crate) mod nature;
pub(crate) mod slots;
mod tank_probe;
pub(crate) mod work;

use crate::assumed::table::Limits;
use crate::assumed::{self, owner};
use crate::burn::Burn;
use crate::context::Context;
use crate::fact::AssumedInput;
use crate::finding::Finding;
use crate::fit::constant_loss;
use crate::heat_path;
use crate::phases::Fire;
use crate::result::{Conditions, Heater, TrialResult, VesselLoss};
use crate::rig::Rig;
use crate::series::Series;
use crate::settings::Settings;
use crate::window::{self, Span};
use calefact_data::{Apparatus, Readings, RegisterRow, TrialKind, Water};
use calefact_stats::ErrorSources;
use features::Features;
use inputs::Inputs;
use model::Model;
use slots::Slot;
use work::Work;

/// Temperature at which the heat capacity of a reference-heater trial is stated, degC.
const MIDDLE: f64 = 60.0;

/// Reduces the trials of one dataset. Holds nothing that changes: trials can be reduced in any order, in parallel.
#[derive(Debug)]
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

    /// The same with the sources that rows share because of what nobody recorded.
    #[must_use]
    pub fn with_register<'r>(mut self, rows: impl IntoIterator<Item = &'r RegisterRow>) -> Self {
        let mut found = ErrorSources::new();
        for row in rows.into_iter().filter(|row| assumed::allowed(row)) {
            found.insert(owner::source(AssumedInput::AirTemperature, row), assumed::info());
            found.extend(Inputs::new(row, &self.context).own.into_iter().filter(|(_, info)| info.shared));
        }
        self.context.book.extend(found);
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
        let mut series = Series::from_readings(readings, row.ambient);
        let air = series.tank.first().and_then(|&start| assumed::air(row, readings, start));
        if let Some(air) = air {
            series.air = vec![assumed::middle(air); series.len()];
        }
        match window::find(&series, readings, row.kind, self.context.settings) {
            Ok(span) => self.fill(readings, &series, (span, air), &mut result),
            Err(fact) => result.findings.push(Finding::error(fact).at(row.log.clone(), None, None)),
        }
        result
    }

    /// Everything that follows once the window is known; `air` is the range of an air temperature that nobody recorded.
    fn fill(
        &self,
        readings: &Readings,
        series: &Series,
        (span, air): (Span, Option<Limits>),
        result: &mut TrialResult,
    ) {
        let (row, context) = (&result.row.clone(), &self.context);
        let mut inputs = Inputs::new(row, context);
        if let Some(air) = air {
            inputs.assume_air(air, row);
        }
        let Work { features, inputs, fire, .. } = self.fitted((row, inputs), readings, series, span, result);
        result.conditions = conditions(row, &features, &inputs);
        let model = Model::new(row.kind, features, inputs.gross_extra, context);
        estimates::fill(&model, &inputs, readings, context, result);
        if row.kind == TrialKind::Burn {
            let enthalpies = &capacity::enthalpies(&series.tank);
            let (model, inputs, fire) = (&model, &inputs, &fire);
            heat_path::extend(&Burn { row, readings, series, enthalpies, model, inputs, context, fire }, result);
        }
        result.curve = curve::thin(series, span, &model, &inputs);
        let found = checks::after(result, series, &model, &inputs, context);
        result.findings.extend(found);
        result.sources.extend(inputs.own);
        result.sources.extend(self.rig_sources.clone());
    }

    /// Features and the inputs of a row with the random errors of the fits.
    fn fitted<'w>(
        &self,
        (row, inputs): (&'w RegisterRow, Inputs),
        readings: &'w Readings,
        series: &Series,
        span: Span,
        result: &mut TrialResult,
    ) -> Work<'w> {
        let window = series.between(span.start, span.end);
        let features = features::basics(&window, span, matches!(row.water, Water::Mass(_)), series.tank[0]);
        let mut work = Work { row, readings, window, features, inputs, fire: Fire::default() };
        work.mean_power();
        if row.kind == TrialKind::Burn {
            work.fire = Fire::find(readings, series, work.capacity().loss_rate(work.features.start_c));
        }
        fits::fit(&mut work, &self.context, result);
        if row.kind == TrialKind::ReferenceHeater {
            result.heater = Some(heater(&work));
        }
        work
    }
}

/// Check of the rig by a reference-heater trial.
fn heater(work: &Work) -> Heater {
    Heater {
        power: work.inputs.value(Slot::Power),
        capacity: work.capacity().at(MIDDLE),
        rises: work.window.rises(constant_loss::STEP),
    }
}

/// Conditions that a comparison may adjust for, each where it was recorded: an assumed value is not a condition of the trial.
fn conditions(row: &RegisterRow, features: &Features, inputs: &Inputs) -> Conditions {
    let known = |v: f64, input| (v.is_finite() && !inputs.assumes(input, row)).then_some(v);
    Conditions {
        start_temperature: Some(features.start_c).filter(|t| t.is_finite()),
        air_temperature: known(features.air_mean, AssumedInput::AirTemperature),
        fuel_moisture: known(inputs.value(Slot::Moisture), AssumedInput::FuelMoisture),
    }
}

/// The result with the trial named by every finding.
fn named(mut result: TrialResult) -> TrialResult {
    let id = &result.row.trial;
    result.findings.iter_mut().for_each(|f| _ = f.trial.get_or_insert_with(|| id.clone()));
    result
}
