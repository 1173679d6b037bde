//! How the flue loss of a whole burn compares with that of its steady part.
//!
//! The loss per joule the exchanger takes, r = (T_after - T_air)/(T_before - T_after) (or per kg of fuel, r = gas amount x
//! (T_after - T_air), where the gas was analysed), is averaged over the log with the strength of the fire as weight and
//! divided by its average over the steady part. The ratio corrects the steady part's loss; a third of the correction,
//! and 2 % at least, is taken as its uncertainty (common practice, no source).

use crate::series::{self, interpolate};
use calefact_data::{Channel, Readings};

/// Strength below which the gas says nothing of the fire.
const WEAK: f64 = 0.1;
/// Uncertainty where the flue probes do not show the course of the fire.
const UNSEEN: f64 = 0.1;
/// How far the ratio may lie from one where few readings do not show light-up and burn-down: their gas is colder, but more of
/// it may be air (common practice, no source).
pub(super) const FEW_READINGS: (f64, f64) = (-0.15, 0.15);

/// Ratio and its standard uncertainty, from the strength of the fire over time and the steady part.
pub(crate) fn ratio(readings: &Readings, strength: &[(f64, f64)], steady: (f64, f64), room: f64) -> (f64, f64) {
    let Some(loss) = Loss::from_readings(readings, room) else { return (1.0, UNSEEN) };
    let burning = strength.iter().filter(|(_, s)| *s > WEAK);
    let points: Vec<(f64, f64, f64)> = burning.filter_map(|(t, s)| Some((*t, s * loss.at(*t)?, *s))).collect();
    let mean = |keep: &dyn Fn(f64) -> bool| {
        let sums = points.iter().filter(|(t, ..)| keep(*t));
        let (weighted, weight) = sums.fold((0.0, 0.0), |(a, b), (_, x, y)| (a + x, b + y));
        weighted / weight
    };
    let ratio = mean(&|_| true) / mean(&|t| (steady.0..=steady.1).contains(&t));
    if ratio.is_finite() && ratio > 0.0 { (ratio, ((ratio - 1.0).abs() / 3.0).max(0.02)) } else { (1.0, UNSEEN) }
}

/// Columns of the log that show the loss; air ratio only as it changes over the burn, so rough formulas will do.
struct Loss {
    after: Table,
    before: Option<Table>,
    air_ratio: Option<Table>,
    room: f64,
    /// Least fall that tells, K.
    least: f64,
}

type Table = (Vec<f64>, Vec<f64>);

impl Loss {
    fn from_readings(readings: &Readings, room: f64) -> Option<Self> {
        let after = table(readings, Channel::FlueAfter, |v| v)?;
        let before = table(readings, Channel::FlueBefore, |v| v);
        let from_o2 = table(readings, Channel::FlueO2, |o2| 0.2095 / (0.2095 - o2.min(0.205)));
        let air_ratio = from_o2.or_else(|| table(readings, Channel::FlueCo2, |co2| 0.203 / co2.max(0.005)));
        let highest = |t: &Table| t.1.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let least = before.as_ref().map_or(0.0, |b| 0.1 * (highest(b) - room));
        (before.is_some() || air_ratio.is_some()).then_some(Self { after, before, air_ratio, room, least })
    }

    fn at(&self, t: f64) -> Option<f64> {
        let value = |(times, values): &Table| interpolate(times, values, t);
        let excess = value(&self.after) - self.room;
        if let Some(ratio) = &self.air_ratio {
            // Gas per kg of wood: about 1 kg and 4.9 kg of air for each unit of the air ratio.
            return Some((1.0 + 4.9 * value(ratio)) * excess);
        }
        let fall = self.before.as_ref().map(&value)? - value(&self.after);
        (fall > self.least).then_some(excess / fall)
    }
}

fn table(readings: &Readings, channel: Channel, map: impl Fn(f64) -> f64) -> Option<Table> {
    let values = readings.channel(channel)?;
    // A formula may give a number for a blank cell; it is none.
    let mapped = values.iter().map(|v| if v.is_finite() { map(*v) } else { f64::NAN });
    let table = series::known(&readings.elapsed_s, mapped);
    (table.0.len() > 2).then_some(table)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A fire on its plateau from 300 to 900 s, half as strong before and after, with gas that falls by 200 K.
    fn log(after: impl Fn(f64) -> f64) -> (Readings, Vec<(f64, f64)>) {
        let elapsed_s: Vec<f64> = (0..=120).map(|i| 10.0 * f64::from(i)).collect();
        let gas: Vec<f64> = elapsed_s.iter().map(|t| after(*t)).collect();
        let before = gas.iter().map(|t| t + 200.0).collect();
        let strength = elapsed_s.iter().map(|t| (*t, if (300.0..=900.0).contains(t) { 1.0 } else { 0.5 })).collect();
        let channels = [(Channel::FlueBefore, before), (Channel::FlueAfter, gas)].into();
        (Readings { elapsed_s, channels, ..Readings::default() }, strength)
    }

    #[test]
    fn a_loss_that_never_changes_needs_no_correction() {
        let (readings, strength) = log(|_| 120.0);
        let (ratio, u) = ratio(&readings, &strength, (300.0, 900.0), 20.0);
        assert!((ratio - 1.0).abs() < 1e-12 && (u - 0.02).abs() < 1e-12);
    }

    #[test]
    fn a_colder_start_and_end_lower_the_whole() {
        // r is 0.5 on the plateau (61 points of weight 1) and 0.25 off it (60 points of weight 1/2).
        let (readings, strength) = log(|t| if (300.0..=900.0).contains(&t) { 120.0 } else { 70.0 });
        let expected = (61.0 * 0.5 + 60.0 * 0.5 * 0.25) / (61.0 + 30.0) / 0.5;
        let (ratio, u) = ratio(&readings, &strength, (300.0, 900.0), 20.0);
        assert!((ratio - expected).abs() < 1e-12, "{ratio} for {expected}");
        assert!((u - (1.0 - expected) / 3.0).abs() < 1e-12);
    }

    #[test]
    fn a_blank_cell_of_the_analysis_changes_nothing() {
        let (readings, strength) = log(|t| if t < 300.0 { 70.0 } else { 120.0 });
        let found = |co2: Vec<f64>| {
            let mut readings = readings.clone();
            readings.channels.insert(Channel::FlueCo2, co2);
            ratio(&readings, &strength, (300.0, 900.0), 20.0).0
        };
        let even = vec![0.1; readings.elapsed_s.len()];
        let mut gap = even.clone();
        gap[60] = f64::NAN;
        assert!((found(even) - found(gap)).abs() < 1e-12);
    }

    #[test]
    fn one_flue_probe_does_not_show_the_course() {
        let (mut readings, strength) = log(|_| 120.0);
        readings.channels.remove(&Channel::FlueBefore);
        let (ratio, u) = ratio(&readings, &strength, (300.0, 900.0), 20.0);
        assert!((ratio - 1.0).abs() < 1e-12 && (u - UNSEEN).abs() < 1e-12);
    }

    /// The hottest gas is 320 degC in a room of 20 degC, so that a fall tells from 30 K on.
    #[test]
    fn a_small_fall_says_nothing() {
        let found = |fall: f64| {
            let (mut readings, strength) = log(|_| 120.0);
            let after = readings.channels[&Channel::FlueAfter].clone();
            let before = readings.channels.get_mut(&Channel::FlueBefore).expect("logged");
            for ((i, before), after) in before.iter_mut().enumerate().zip(after) {
                *before = after + if i < 30 { fall } else { 200.0 };
            }
            ratio(&readings, &strength, (300.0, 900.0), 20.0).0
        };
        assert!((found(29.0) - 1.0).abs() < 1e-12, "left out");
        // Thirty points of weight 1/2 with r = 100 / 31, the others with r = 1/2.
        let expected = (76.0 * 0.5 + 15.0 * 100.0 / 31.0) / 91.0 / 0.5;
        assert!((found(31.0) - expected).abs() < 1e-12, "{} for {expected}", found(31.0));
    }

    /// Per kg of wood there are about 1 kg of gas and 4.9 kg for each unit of the air ratio, which is 0.2095 / (0.2095 - O2) or
    /// 0.203 / CO2 (air has 20.95 % O2; dry gas of wood burnt without excess air 20.3 % CO2).
    #[test]
    fn more_air_carries_more_heat_off() {
        for (channel, on, off, ratios) in [
            (Channel::FlueO2, 0.105, 0.157, [0.2095 / 0.1045, 0.2095 / 0.0525]),
            (Channel::FlueCo2, 0.10, 0.05, [2.03, 4.06]),
        ] {
            let (mut readings, strength) = log(|_| 120.0);
            let is_on = |t: &f64| (300.0..=900.0).contains(t);
            let analysed = readings.elapsed_s.iter().map(|t| if is_on(t) { on } else { off }).collect();
            readings.channels.insert(channel, analysed);
            let [steady, beside] = ratios.map(|ratio| 1.0 + 4.9 * ratio);
            let expected = (61.0 * steady + 30.0 * beside) / 91.0 / steady;
            let (found, _) = ratio(&readings, &strength, (300.0, 900.0), 20.0);
            assert!((found - expected).abs() < 1e-12, "{channel:?}: {found} for {expected}");
        }
    }
}
