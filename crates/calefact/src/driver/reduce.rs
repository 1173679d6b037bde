//! Reading and reducing, log by log.

use super::{Batch, Inputs, chunks};
use calefact_analysis::result::{TrialResult, VesselLoss};
use calefact_analysis::{Reducer, Settings, pool_losses};
use calefact_data::{Finding, ReadTrial, Readings, RegisterRow};
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

/// Pools the standing-loss trials, given by the logs that hold them, into one loss coefficient a vessel.
pub fn vessel_losses(
    inputs: &Inputs,
    batches: &[Batch],
    settings: &Settings,
    tick: impl Fn() + Sync,
) -> Vec<VesselLoss> {
    let reducer = Reducer::new(settings, &inputs.apparatus, &[]);
    let mut results = Vec::new();
    let Ok(()) = chunks::in_order(
        batches,
        |b| b.bytes,
        |batch| reduced(inputs, &reducer, batch, &tick),
        |trials| {
            results.extend(trials.into_iter().map(|t| t.result));
            Ok::<(), Infallible>(())
        },
    );
    pool_losses(&results, &inputs.apparatus, settings)
}

/// Reads and reduces every trial. `keep` is given each trial's row and readings, in order, before they are dropped.
///
/// # Errors
/// The first error of `keep`.
pub fn reduce_all<E: Send>(
    inputs: &Inputs,
    settings: &Settings,
    losses: &[VesselLoss],
    tick: impl Fn() + Sync,
    mut keep: impl FnMut(&RegisterRow, &Readings) -> Result<(), E> + Send,
) -> Result<Vec<TrialResult>, E> {
    let reducer = Reducer::new(settings, &inputs.apparatus, losses);
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
