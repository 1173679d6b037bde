//! After-heat and stratification: how the choice of a burn's end, and one probe for a whole tank, change its figures.
//!
//! Water goes on warming after the fire is judged out, because the stove and the coil hold heat; the end of a burn is
//! the pipeline's to choose. Here the other choices are worked out beside the one taken.

use crate::burn::Burn;
use crate::errors::with_instrument;
use crate::fact::TrialFact;
use crate::fact::trial::{BurnEnd, EndPoint};
use crate::finding::Finding;
use crate::reduce::capacity::Capacity;
use crate::series::interpolate;
use crate::settings::End;
use crate::window;
use calefact_data::{Channel, Readings};
use calefact_stats::UncertainValue;

/// Change of the efficiency from one choice of end to another that is worth a remark.
const WORTH: f64 = 0.002;
/// Temperature at which the probes' errors are reckoned, degC.
const MIDDLE: f64 = 50.0;
/// Difference between probes that is worth a remark, K.
const LAYERED: f64 = 2.0;

/// Notes on the end of the burn and on layers in the tank. `energy` is the net fuel energy, credited, J; NaN where unknown.
pub(crate) fn findings(burn: &Burn, capacity: Capacity, energy: f64) -> Vec<Finding> {
    let found = [end_of_trial(burn, capacity, energy), layers(burn)];
    found.into_iter().flatten().map(Finding::note).collect()
}

/// The possible ends with the heat delivered until then, J, in the order of time.
fn choices(burn: &Burn, capacity: Capacity) -> Vec<(EndPoint, f64)> {
    let series = burn.series;
    let Some(&last) = series.t.last() else { return Vec::new() };
    let mut ends = vec![(BurnEnd::LastReading, last), (BurnEnd::Peak, window::peak(series))];
    ends.extend(window::fire_out(burn.readings).map(|t| (BurnEnd::FireOut, t)));
    ends.sort_by(|a, b| a.1.total_cmp(&b.1));
    ends.dedup_by(|a, b| (a.1 - b.1).abs() < f64::EPSILON);
    let excess = series.excess_integral();
    let with_heat = |(end, at_s)| {
        let tank_degc = interpolate(&series.t, &series.tank, at_s);
        // Standing loss is left out where air or loss coefficient are not known.
        let lost = capacity.loss * interpolate(&series.t, &excess, at_s);
        let heat = capacity.stored_from(series.tank[0], tank_degc) + if lost.is_finite() { lost } else { 0.0 };
        (EndPoint { end, tank_degc, at_s }, heat)
    };
    ends.into_iter().map(with_heat).collect()
}

fn end_of_trial(burn: &Burn, capacity: Capacity, energy: f64) -> Option<TrialFact> {
    let choices = choices(burn, capacity);
    let end = match burn.context.settings.end {
        End::FireOut => BurnEnd::FireOut,
        End::Peak => BurnEnd::Peak,
        End::LastReading => BurnEnd::LastReading,
        End::Target(_) => return None,
    };
    // Two ends at one time are one choice, under the name of the first; the last reading is always there.
    let (used, heat) = *choices.iter().find(|(c, _)| c.end == end).or_else(|| choices.last())?;
    let others = choices.iter().map(|(c, h)| (*c, (h - heat) / energy));
    let others: Vec<(EndPoint, f64)> = others.filter(|(c, change)| c.end != used.end && change.abs() > WORTH).collect();
    (!others.is_empty()).then_some(TrialFact::EndOfTrial { taken: EndPoint { end, ..used }, others })
}

/// Greatest standing difference between the tank probe and the probe at the coil's inlet, which draws from the tank.
fn layers(burn: &Burn) -> Option<TrialFact> {
    let (tank, inlet) = (burn.readings.channel(Channel::Tank)?, burn.readings.channel(Channel::CoilIn)?);
    let (mean, at_s) = widest(burn.readings, tank, inlet)?;
    let probe = |column| with_instrument(&burn.context.errors, column, MIDDLE);
    let (u_tank, u_inlet) = (probe("tank"), probe("coil_in"));
    let u = UncertainValue::combine(&[(1.0, &u_tank), (-1.0, &u_inlet)]).std_uncertainty();
    let fact = TrialFact::TankLayered { difference_k: mean.abs(), at_s };
    (mean.abs() > LAYERED.max(2.0 * u)).then_some(fact)
}

/// The greatest mean difference of two columns over a quarter of the log, and the middle of that quarter.
fn widest(readings: &Readings, a: &[f64], b: &[f64]) -> Option<(f64, f64)> {
    let rows: Vec<usize> = (0..a.len()).filter(|&i| (a[i] - b[i]).is_finite()).collect();
    let size = (rows.len() / 4).max(1);
    let mean = |rows: &[usize]| {
        let n = rows.len() as f64;
        let sum: f64 = rows.iter().map(|&i| a[i] - b[i]).sum();
        (sum / n, rows.iter().map(|&i| readings.elapsed_s[i]).sum::<f64>() / n)
    };
    rows.chunks(size).map(mean).max_by(|x, y| x.0.abs().total_cmp(&y.0.abs()))
}
