//! Propagation of distributions beside first order (JCGM 101:2008), where the pipeline asks for it.
//!
//! The same measurement model is run on draws of every source. A quantity keeps its first-order parts, which comparisons
//! need, but takes standard uncertainty and shortest interval from the draws; where the two intervals differ by more than
//! the digits asked for, the note says so (JCGM 101, clause 8).

use super::inputs::Inputs;
use super::model::Model;
use crate::Quantity;
use crate::context::Context;
use crate::fact::{ErrorPropagation, Note};
use crate::monte_carlo::MOST_DRAWS;
use crate::result::{TrialEstimate, TrialResult};
use calefact_stats::ErrorSources;
use calefact_stats::monte_carlo::{McResult, McSettings, least_draws, validate};

/// Replaces the intervals of a trial's estimates by those of a Monte Carlo run, where the pipeline asks for it.
pub(crate) fn refine(model: &Model, inputs: &Inputs, context: &Context, result: &mut TrialResult) {
    let Some(runs) = &context.monte_carlo else { return };
    let McSettings { confidence, digits, .. } = *runs.settings();
    let block = least_draws(confidence);
    if block > MOST_DRAWS {
        result.estimates.iter_mut().for_each(|e| e.notes.push(Note::TooManyDraws { draws: block, most: MOST_DRAWS }));
        return;
    }
    let mut book: ErrorSources = context.book.clone();
    book.extend(inputs.own.clone());
    let quantities: Vec<Quantity> = result.estimates.iter().map(|e| e.quantity).collect();
    let mut values = vec![0.0; Quantity::ALL.len()];
    let drawn = runs.run(&inputs.slots, &book, quantities.len(), |x, y| {
        values.fill(f64::NAN);
        model.fill(x, &mut values);
        y.iter_mut().zip(&quantities).for_each(|(y, quantity)| *y = values[*quantity as usize]);
    });
    for (estimate, mc) in result.estimates.iter_mut().zip(&drawn) {
        replace(estimate, mc, digits);
    }
}

fn replace(estimate: &mut TrialEstimate, mc: &McResult, digits: u8) {
    if !mc.std_uncertainty.is_finite() {
        return;
    }
    let first = estimate.estimate.interval;
    let is_valid = validate(&first, &mc.interval, estimate.estimate.std_uncertainty, digits);
    let draws = mc.trials;
    if !is_valid {
        estimate.notes.push(Note::FirstOrderDiffers { lower: first.lower, upper: first.upper });
    }
    if !mc.converged {
        estimate.notes.push(Note::NotSettled { digits, draws });
    }
    if mc.undefined > 0 {
        estimate.notes.push(Note::UndefinedDraws { undefined: mc.undefined, draws });
    }
    let e = &mut estimate.estimate;
    e.std_uncertainty = mc.std_uncertainty;
    let bounds = estimate.quantity.bounds();
    e.interval = if bounds.contains(e.value) { bounds.part(mc.interval) } else { mc.interval };
    estimate.method.propagation = ErrorPropagation::MonteCarlo;
}
