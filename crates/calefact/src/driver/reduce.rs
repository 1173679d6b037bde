//! Reading and reducing, log by log.

use super::{Batch, Inputs, chunks};
use calefact_analysis::result::{TrialResult, VesselLoss};
use calefact_analysis::rig::{self, Rig};
use calefact_analysis::settings::RigCheck;
use calefact_analysis::{Reducer, Settings, pool_losses};
use calefact_data::{Finding, ReadTrial, Readings, RegisterRow, TrialKind};
use std::convert::Infallible;

/// Reads every log and hands each trial's findings on; nothing is computed.
pub fn read_all(inputs: &Inputs, tick: impl Fn() + Sync) -> Vec<Finding> {
    let mut findings = Vec::new();
    let read = |batch: &Batch| {
        tick();
        inputs.sets[batch.set].read(&batch.log).into_iter().flat_map(|t| t.findings).collect::<Vec<_>>()
    };
    let Ok(()) = chunks::in_order(
        &inputs.batches,
        |b| b.bytes,
        read,
        |mut found| {
            findings.append(&mut found);
            Ok::<(), Infallible>(())
        },
    );
    findings
}

/// What every burn needs of the other trials of its rig.
#[derive(Debug, Clone, Default)]
pub struct Groundwork {
    /// Pooled loss coefficients of the vessels.
    pub losses: Vec<VesselLoss>,
    /// Pooled ratio of the reference heater, where the pipeline uses it.
    pub rig: Option<Rig>,
}

/// Standing-loss trials first, then, where the pipeline uses them, the reference-heater trials.
pub fn groundwork(inputs: &Inputs, settings: &Settings, tick: impl Fn() + Sync) -> Groundwork {
    let cooling = reduce_kind(inputs, TrialKind::StandingLoss, settings, &Groundwork::default(), &tick);
    let mut ground = Groundwork { losses: pool_losses(&cooling, &inputs.apparatus, settings), rig: None };
    if settings.rig_check != RigCheck::Report {
        let heated = reduce_kind(inputs, TrialKind::ReferenceHeater, settings, &ground, &tick);
        ground.rig = rig::pool(&heated, &inputs.apparatus, settings);
    }
    ground
}

fn reduce_kind(
    inputs: &Inputs,
    kind: TrialKind,
    settings: &Settings,
    ground: &Groundwork,
    tick: &(impl Fn() + Sync),
) -> Vec<TrialResult> {
    let reducer = reducer(inputs, settings, ground);
    let mut results = Vec::new();
    let Ok(()) = chunks::in_order(
        &inputs.batches_of(kind),
        |b| b.bytes,
        |batch| reduced(inputs, &reducer, batch, tick),
        |trials| {
            results.extend(trials.into_iter().map(|t| t.result));
            Ok::<(), Infallible>(())
        },
    );
    results
}

fn reducer<'a>(inputs: &'a Inputs, settings: &'a Settings, ground: &'a Groundwork) -> Reducer<'a> {
    Reducer::new(settings, &inputs.apparatus, &ground.losses).with_reference_heater(ground.rig.as_ref())
}

/// Reads and reduces every trial. `keep` is given each trial's row and readings, in order, before they are dropped.
///
/// # Errors
/// The first error of `keep`.
pub fn reduce_all<E: Send>(
    inputs: &Inputs,
    settings: &Settings,
    ground: &Groundwork,
    tick: impl Fn() + Sync,
    mut keep: impl FnMut(&RegisterRow, &Readings) -> Result<(), E> + Send,
) -> Result<Vec<TrialResult>, E> {
    let reducer = reducer(inputs, settings, ground);
    let mut results = Vec::new();
    let make = |batch: &Batch| reduced(inputs, &reducer, batch, &tick);
    chunks::in_order(
        &inputs.batches,
        |b| b.bytes,
        make,
        |trials| {
            for trial in trials {
                if let Some(readings) = &trial.readings {
                    keep(&trial.result.row, readings)?;
                }
                results.push((trial.place, trial.result));
            }
            Ok(())
        },
    )?;
    // A log of many trials is read at once; the tables follow the register.
    results.sort_by_key(|(place, _)| *place);
    Ok(results.into_iter().map(|(_, result)| result).collect())
}

/// A trial after reduction, with its readings still there.
struct Reduced {
    /// Dataset and register row.
    place: (usize, usize),
    readings: Option<Readings>,
    result: TrialResult,
}

fn reduced(inputs: &Inputs, reducer: &Reducer<'_>, batch: &Batch, tick: &impl Fn()) -> Vec<Reduced> {
    let trial = |read: ReadTrial| {
        let row = inputs.row(batch, read.row);
        let result = match &read.readings {
            Some(readings) => reducer.reduce(&row, readings, read.findings),
            None => reducer.unreadable(&row, read.findings),
        };
        Reduced { place: (batch.set, read.row), readings: read.readings, result }
    };
    let trials = inputs.sets[batch.set].read(&batch.log).into_iter().map(trial).collect();
    tick();
    trials
}
