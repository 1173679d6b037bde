//! The ends of the steady part of a burn: the tank there, from the readings around, and the mean heat flow between two.

use super::capacity::{Capacity, Heat};
use crate::fit::Noise;
use crate::fit::weights::Weights;
use crate::series::{Series, interpolate};

/// Fewest readings around an end.
const LEAST: usize = 4;

/// The tank at one end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct End {
    /// When, elapsed s.
    pub(crate) at: f64,
    /// Tank then, degC.
    pub(crate) tank: f64,
    /// Standard uncertainty of it from the scatter of the readings, K.
    pub(crate) scatter: f64,
}

impl End {
    /// The tank at a time: a straight line through the readings within half a width of it.
    pub(crate) fn at(window: &Series, at: f64, width: f64, noise: &Noise) -> Option<Self> {
        let (t, n) = (&window.t, window.len());
        let from = t.partition_point(|t| *t < at - 0.5 * width);
        let to = t.partition_point(|t| *t <= at + 0.5 * width);
        let missing = LEAST.saturating_sub(to - from);
        let rows = from.saturating_sub(missing.div_ceil(2))..(to + missing.div_ceil(2)).min(n);
        let weights = Weights::value(t, rows, at)?;
        Some(Self { at, tank: weights.apply(&window.tank), scatter: weights.std_uncertainty(noise) })
    }
}

/// Mean heat flow into the vessel between two ends, W.
pub(crate) fn flow(window: &Series, heat: &Heat, capacity: Capacity, from: &End, to: &End) -> f64 {
    let excess = |at: f64| interpolate(&window.t, &heat.excess, at);
    let lost = capacity.loss * (excess(to.at) - excess(from.at));
    (capacity.stored_from(from.tank, to.tank) + lost) / (to.at - from.at)
}
