//! Reading and reducing, log by log.

use super::{Batch, Inputs, chunks, register::InOrder};
use calefact_analysis::finding::{Fact, Finding};
use calefact_analysis::result::{TrialResult, VesselLoss};
use calefact_analysis::rig::{self, Rig};
use calefact_analysis::settings::RigCheck;
use calefact_analysis::{Quantity, Reducer, Settings, pool_losses};
use calefact_data::{Dataset, ReadAs, ReadTrial, Readings, RegisterRow, TrialKind};
use calefact_stats::ErrorSources;
use std::convert::Infallible;

/// What every burn needs of the other trials of its rig.
#[derive(Debug, Clone, Default)]
pub(crate) struct Calibration {
    /// Pooled loss coefficients of the vessels.
    pub(crate) losses: Vec<VesselLoss>,
    /// Pooled ratio of the reference heater, where the pipeline uses it.
    pub(crate) rig: Option<Rig>,
}

/// Standing-loss trials first, then, where the pipeline uses them, the reference-heater trials.
pub(crate) fn groundwork(inputs: &Inputs, settings: &Settings, tick: impl Fn() + Sync) -> Calibration {
    let cooling = reduce_kind(
        inputs,
        (TrialKind::StandingLoss, Quantity::LossCoefficient),
        settings,
        &Calibration::default(),
        &tick,
    );
    let mut ground = Calibration { losses: pool_losses(&cooling, &inputs.apparatus, settings), rig: None };
    if settings.rig_check != RigCheck::Report {
        let heated =
            reduce_kind(inputs, (TrialKind::ReferenceHeater, Quantity::ReferenceHeaterRatio), settings, &ground, &tick);
        ground.rig = rig::pool(&heated, &inputs.apparatus, settings);
    }
    ground
}

/// The trials of a kind, with the one quantity that is pooled.
fn reduce_kind(
    inputs: &Inputs,
    (kind, quantity): (TrialKind, Quantity),
    settings: &Settings,
    ground: &Calibration,
    tick: &(impl Fn() + Sync),
) -> Vec<TrialResult> {
    let reducers = reducers(inputs, settings, ground);
    let mut results = Vec::new();
    let Ok(()) = chunks::in_order(
        &inputs.batches_of(kind),
        |b| b.bytes,
        |batch| reduced(inputs, &reducers, batch, tick),
        |trials| {
            results.extend(trials.into_iter().map(|t| t.result.only(quantity)));
            Ok::<(), Infallible>(())
        },
    );
    results
}

/// What the trials of each dataset are reduced with: its own apparatus, so that no instrument of another stands in.
pub(crate) fn reducers<'a>(inputs: &'a Inputs, settings: &'a Settings, ground: &'a Calibration) -> Vec<Reducer<'a>> {
    let of_set = |set: &'a Dataset| {
        Reducer::new(settings, &set.apparatus, &ground.losses)
            .with_reference_heater(ground.rig.as_ref())
            .with_register(&set.rows)
    };
    inputs.sets.iter().map(of_set).collect()
}

/// Every source of error that trials share.
pub(crate) fn sources(reducers: &[Reducer<'_>]) -> ErrorSources {
    reducers.iter().flat_map(Reducer::sources).map(|(source, info)| (source.clone(), info.clone())).collect()
}

/// Where a run leaves what it makes of the trials.
pub(crate) trait Sink: Send {
    /// What can go wrong.
    type Error: Send;

    /// Takes the readings of a trial, and how they were read. They come in the order of the logs.
    ///
    /// # Errors
    /// Whatever stops the run.
    fn readings(&mut self, row: &RegisterRow, readings: &Readings, read_as: &ReadAs) -> Result<(), Self::Error>;

    /// Takes what was found of the next trial of the register.
    ///
    /// # Errors
    /// Whatever stops the run.
    fn result(&mut self, result: TrialResult) -> Result<(), Self::Error>;
}

/// Reads and reduces every trial and leaves it in the sink; nothing of it stays here.
///
/// # Errors
/// The first error of the sink.
pub(crate) fn reduce_all<S: Sink>(
    inputs: &Inputs,
    reducers: &[Reducer<'_>],
    tick: impl Fn() + Sync,
    sink: &mut S,
) -> Result<(), S::Error> {
    let mut register = InOrder::new(inputs.places());
    let make = |batch: &Batch| reduced(inputs, reducers, batch, &tick);
    chunks::in_order(
        &inputs.batches,
        |b| b.bytes,
        make,
        |trials| {
            for Reduced { place, readings, read_as, result } in trials {
                if let Some(readings) = readings {
                    sink.readings(&result.row, &readings, &read_as)?;
                }
                register.put(place, result, |result| sink.result(result))?;
            }
            Ok(())
        },
    )?;
    register.finish(|result| sink.result(result))
}

/// A trial after reduction, with its readings still there.
struct Reduced {
    /// Dataset and register row.
    place: (usize, usize),
    readings: Option<Readings>,
    read_as: ReadAs,
    result: TrialResult,
}

fn reduced(inputs: &Inputs, reducers: &[Reducer<'_>], batch: &Batch, tick: &impl Fn()) -> Vec<Reduced> {
    let reducer = &reducers[batch.set];
    let trial = |mut read: ReadTrial| {
        let row = inputs.row(batch, read.row);
        let mut result = match &read.readings {
            Some(readings) => reducer.reduce(&row, readings, widened(read.findings)),
            None => reducer.unreadable(&row, widened(read.findings)),
        };
        point_to_register(&inputs.sets[batch.set], &mut result);
        if let Some(readings) = &mut read.readings {
            flag_outside_window(readings, &result);
        }
        Reduced { place: (batch.set, read.row), readings: read.readings, read_as: read.read_as, result }
    };
    let trials = inputs.sets[batch.set].read(&batch.log).into_iter().map(trial).collect();
    tick();
    trials
}

/// Names the cell of the register that a finding of the reduction points to.
fn point_to_register(set: &Dataset, result: &mut TrialResult) {
    let line = result.row.line;
    for finding in &mut result.findings {
        let Fact::Trial(fact) = &finding.fact else { continue };
        if let Some(column) = fact.register_column() {
            let (file, number) = set.register_column(column);
            (finding.file, finding.line, finding.column) = (Some(file.into()), Some(line), number);
        }
    }
}

/// Flags the readings that a trial is not reduced over; where no window was found, none.
fn flag_outside_window(readings: &mut Readings, result: &TrialResult) {
    let (start, end) = result.curve.window;
    if start < end {
        readings.flag_outside((start, end));
    }
}

/// The reader's findings as findings of the analysis.
fn widened(findings: Vec<calefact_data::Finding>) -> Vec<Finding> {
    findings.into_iter().map(calefact_data::Finding::widen).collect()
}
