//! Cautions of the coil: near boiling, flow stopped, dry.

use super::{Scene, minutes};
use crate::finding::Finding;
use calefact_data::Channel;
use calefact_physics::caution;

/// Gas above this is hot enough to boil a coil that does not flow, degC.
const HOT_GAS: f64 = 150.0;
/// Share of the usual flow below which it counts as stopped.
const STOPPED: f64 = 0.1;
/// Rise of the water over the coil below which, with hot gas, nothing can be flowing through it wet, K.
const NOTHING: f64 = 0.3;

/// Coil outlet within [`caution::COIL_BOIL_MARGIN`] of the boiling point of the place.
pub fn near_boiling(scene: &Scene) -> Option<Finding> {
    let out = scene.readings.channel(Channel::CoilOut)?;
    let limit = scene.boiling() - caution::COIL_BOIL_MARGIN;
    let first = out.iter().position(|t| *t >= limit)?;
    let highest = out.iter().copied().filter(|t| t.is_finite()).fold(f64::NEG_INFINITY, f64::max);
    Some(
        Finding::warning_text(
            "caution-near-boiling",
            format!(
                "water left the coil at up to {highest:.1} degC, from {:.0} min on within {:.0} K of boiling ({:.1} degC {})",
                minutes(scene.readings.elapsed_s[first]),
                caution::COIL_BOIL_MARGIN,
                scene.boiling(),
                scene.place()
            ),
        )
        .hint("more flow or less fire, and an open vent; steam takes about 1600 times the volume of its water"),
    )
}

/// Flow stopped while the gas before the exchanger was hot.
pub fn flow_stopped(scene: &Scene) -> Option<Finding> {
    let (flow, gas) = (scene.readings.channel(Channel::Flow)?, scene.readings.channel(Channel::FlueBefore)?);
    let usual = median(flow)?;
    let row = (0..flow.len()).find(|&i| flow[i] < STOPPED * usual && gas[i] > HOT_GAS)?;
    Some(
        Finding::warning_text(
            "caution-flow-stopped",
            format!(
                "the water stood still in the coil at {:.0} min with flue gas of {:.0} degC before it",
                minutes(scene.readings.elapsed_s[row]),
                gas[row]
            ),
        )
        .hint("a coil that stops flowing over a fire boils dry: open vent or relief valve, and a way to draw the fire"),
    )
}

/// A coil that flows nothing in gas above the melting point of soft solder. Without a flow meter, hot gas and no rise of
/// the water over the coil tell it.
pub fn dry(scene: &Scene) -> Option<Finding> {
    let r = scene.readings;
    let gas = r.channel(Channel::FlueBefore)?;
    let usual = r.channel(Channel::Flow).and_then(median);
    let flow = |i: usize| r.channel(Channel::Flow).zip(usual).map(|(f, u)| f[i] < STOPPED * u);
    let rise = |i: usize| Some(r.channel(Channel::CoilOut)?[i] - r.channel(Channel::CoilIn)?[i] < NOTHING);
    let still = |i: usize| flow(i).or_else(|| rise(i)).unwrap_or(false);
    let hot = |i: usize| gas[i] > caution::SOLDER_TIN_LEAD;
    let row = (0..r.len()).find(|&i| hot(i) && still(i))?;
    let solder = if gas[row] > caution::SOLDER_LEAD_FREE { "soft solder of any kind" } else { "tin-lead solder" };
    Some(
        Finding::warning_text(
            "caution-dry-coil",
            format!(
                "no heat or water moved in the coil at {:.0} min in gas of {:.0} degC: a dry coil takes the gas's temperature, and {solder} melts there ({:.0} to {:.0} degC)",
                minutes(r.elapsed_s[row]),
                gas[row],
                caution::SOLDER_TIN_LEAD,
                caution::SOLDER_LEAD_FREE
            ),
        )
        .hint("braze joints that see flue gas, never light a fire on a dry coil"),
    )
}

/// Median of the finite values above zero.
fn median(values: &[f64]) -> Option<f64> {
    let mut known: Vec<f64> = values.iter().copied().filter(|v| *v > 0.0).collect();
    let middle = known.len() / 2;
    (!known.is_empty()).then(|| *known.select_nth_unstable_by(middle, f64::total_cmp).1)
}
