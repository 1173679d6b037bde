//! Cautions of the coil: near boiling, flow stopped, dry.

use super::scene::Scene;
use crate::fact::CautionFact;
use calefact_data::Channel;
use calefact_physics::caution;

/// Gas above this is hot enough to boil a coil that does not flow, degC.
const HOT_GAS: f64 = 150.0;
/// Share of the usual flow below which it counts as stopped.
const STOPPED: f64 = 0.1;
/// Rise of the water over the coil below which, with hot gas, nothing can be flowing through it wet, K.
const NOTHING: f64 = 0.3;

/// Coil outlet within [`caution::COIL_BOIL_MARGIN`] of the boiling point of the place.
pub(super) fn near_boiling(scene: &Scene) -> Option<CautionFact> {
    let out = scene.readings.channel(Channel::CoilOut)?;
    let boiling_degc = scene.boiling();
    let first = out.iter().position(|t| *t >= boiling_degc - caution::COIL_BOIL_MARGIN)?;
    let highest_degc = out.iter().copied().filter(|t| t.is_finite()).fold(f64::NEG_INFINITY, f64::max);
    let from_s = scene.readings.elapsed_s[first];
    Some(CautionFact::NearBoiling { highest_degc, from_s, boiling_degc, altitude_m: scene.altitude })
}

/// Flow stopped while the gas before the exchanger was hot.
pub(super) fn flow_stopped(scene: &Scene) -> Option<CautionFact> {
    let (flow, gas) = (scene.readings.channel(Channel::Flow)?, scene.readings.channel(Channel::FlueBefore)?);
    let usual = median(flow)?;
    let row = (0..flow.len()).find(|&i| flow[i] < STOPPED * usual && gas[i] > HOT_GAS)?;
    Some(CautionFact::FlowStopped { at_s: scene.readings.elapsed_s[row], gas_degc: gas[row] })
}

/// A coil that flows nothing in gas above the melting point of soft solder. Without a flow meter, hot gas and no rise of
/// the water over the coil show it.
pub(super) fn dry(scene: &Scene) -> Option<CautionFact> {
    let r = scene.readings;
    let gas = r.channel(Channel::FlueBefore)?;
    let usual = r.channel(Channel::Flow).and_then(median);
    let flow = |i: usize| r.channel(Channel::Flow).zip(usual).map(|(f, u)| f[i] < STOPPED * u);
    let rise = |i: usize| Some(r.channel(Channel::CoilOut)?[i] - r.channel(Channel::CoilIn)?[i] < NOTHING);
    let still = |i: usize| flow(i).or_else(|| rise(i)).unwrap_or(false);
    let row = (0..r.len()).find(|&i| gas[i] > caution::SOLDER_TIN_LEAD && still(i))?;
    Some(CautionFact::DryCoil { at_s: r.elapsed_s[row], gas_degc: gas[row] })
}

/// Median of the finite values above zero.
fn median(values: &[f64]) -> Option<f64> {
    let mut known: Vec<f64> = values.iter().copied().filter(|v| *v > 0.0).collect();
    let middle = known.len() / 2;
    (!known.is_empty()).then(|| *known.select_nth_unstable_by(middle, f64::total_cmp).1)
}
