//! The exchanger over the steady part, slice by slice, and its steady mean, for charts of conductance against gas flow.

use super::means::plain_mean;
use super::model::PathModel;
use super::path::Path;
use super::slots::PathSlot as P;
use super::steady::steady_tank;
use crate::Quantity;
use crate::burn::Burn;
use crate::result::{CoursePoint, ExchangerPoint, TrialResult};
use crate::series;

/// Most slices of the steady part.
const SLICES: usize = 12;
/// Fewest tank readings of a slice.
const FEW: usize = 4;

/// The steady mean of a trial as one point, if both conductance and gas flow are known.
pub(crate) fn point(result: &TrialResult) -> Option<ExchangerPoint> {
    let estimate = |q| result.get(q).map(|e| e.estimate.clone());
    Some(ExchangerPoint {
        gas_flow: estimate(Quantity::GasFlow)?,
        conductance: estimate(Quantity::ExchangerConductance)?,
        conductance_area: estimate(Quantity::ExchangerConductanceArea),
        power: estimate(Quantity::CoilPower)?,
    })
}

/// Power, gas flow, conductance and effectiveness by slice; values only, to show their course.
pub(crate) fn course(path: &Path, burn: &Burn) -> Vec<CoursePoint> {
    let Some((start, end)) = path.phases.steady().filter(|_| path.phases.certain) else { return Vec::new() };
    let inside = series::between(&burn.series.t, start, end).len();
    let slices = (inside / FEW).min(SLICES);
    let width = (end - start) / slices.max(1) as f64;
    (0..slices)
        .filter_map(|i| {
            let from = start + width * i as f64;
            slice(path, burn, (from, from + width))
        })
        .collect()
}

/// One slice: the model at the means of the slice.
fn slice(path: &Path, burn: &Burn, range: (f64, f64)) -> Option<CoursePoint> {
    let steady = steady_tank(burn.series, burn.enthalpies, range)?;
    let mut x: Vec<f64> = path.inputs.slots.iter().map(|s| s.value).collect();
    let mean_tank = steady.tank_mean;
    for (slot, channel) in super::inputs::CHANNELS {
        if x[slot.index()].is_finite() {
            x[slot.index()] = plain_mean(burn.readings, channel, range).unwrap_or(x[slot.index()]);
        }
    }
    if path.inputs.inlet_from_tank {
        x[P::CoilIn.index()] = mean_tank;
    }
    let model = PathModel { steady: Some(steady), ..path.model.clone() };
    let out = model.evaluate(&x);
    let known = |q: Quantity| Some(out[q as usize]).filter(|v| v.is_finite());
    Some(CoursePoint {
        t: 0.5 * (range.0 + range.1),
        power: known(Quantity::CoilPower)?,
        gas_flow: known(Quantity::GasFlow),
        conductance: known(Quantity::ExchangerConductance),
        effectiveness: known(Quantity::ExchangerEffectiveness),
    })
}
