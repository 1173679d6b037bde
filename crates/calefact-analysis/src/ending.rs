//! After-heat and stratification: what the choice of a burn's end, and one probe for a whole tank, do to its figures.
//!
//! Water goes on warming after the fire is judged out, because the stove and the coil hold heat; the end of a burn is
//! the pipeline's to choose. Here the other choices are worked out and put beside the one taken.

use crate::finding::Finding;
use crate::heat_path::Burn;
use crate::heat_path::inputs::with_instrument;
use crate::reduce::features::Capacity;
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

/// Tank temperature and heat at one choice of the end.
#[derive(Debug, Clone, Copy, PartialEq)]
struct At {
    name: &'static str,
    time: f64,
    tank: f64,
    heat: f64,
}

/// Notes on the end of the burn and on layers in the tank. `energy` is the net fuel energy, credited, J; NaN where unknown.
pub(crate) fn findings(burn: &Burn, capacity: Capacity, energy: f64) -> Vec<Finding> {
    [end_note(burn, capacity, energy), layers(burn)].into_iter().flatten().collect()
}

/// The choices there are, in the order of time.
fn choices(burn: &Burn, capacity: Capacity) -> Vec<At> {
    let series = burn.series;
    let Some(&last) = series.t.last() else { return Vec::new() };
    let peak = window::peak(series);
    let mut all = vec![("the last reading", last), ("the peak", peak)];
    all.extend(window::fire_out(burn.readings).map(|t| ("fire out", t)));
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    all.dedup_by(|a, b| (a.1 - b.1).abs() < f64::EPSILON);
    let excess = series.excess_integral();
    let at = |(name, time)| {
        let tank = interpolate(&series.t, &series.tank, time);
        // Standing loss is left out where air or loss coefficient are not known.
        let lost = capacity.loss * interpolate(&series.t, &excess, time);
        let heat = capacity.stored_from(series.tank[0], tank) + if lost.is_finite() { lost } else { 0.0 };
        At { name, time, tank, heat }
    };
    all.into_iter().map(at).collect()
}

fn end_note(burn: &Burn, capacity: Capacity, energy: f64) -> Option<Finding> {
    let choices = choices(burn, capacity);
    let taken = match burn.context.settings.end {
        End::FireOut => "fire out",
        End::Peak => "the peak",
        End::LastReading => "the last reading",
        End::Target(_) => return None,
    };
    let last = choices.iter().map(|c| c.time).fold(f64::NAN, f64::max);
    let used = choices.iter().find(|c| c.name == taken).or_else(|| choices.iter().find(|c| c.time >= last))?;
    let others: Vec<String> = choices
        .iter()
        .filter(|c| c.name != used.name && ((c.heat - used.heat) / energy).abs() > WORTH)
        .map(|c| sentence(c, used, energy))
        .collect();
    (!others.is_empty()).then(|| {
        let words = format!(
            "the burn ends at {taken} ({:.1} degC, {:.0} min); {}",
            used.tank,
            used.time / 60.0,
            others.join("; ")
        );
        Finding::note_text("end-of-trial", words)
    })
}

fn sentence(other: &At, used: &At, energy: f64) -> String {
    let points = 100.0 * (other.heat - used.heat) / energy;
    let (verb, points) = if points < 0.0 { ("takes", -points) } else { ("adds", points) };
    let direction = if verb == "takes" { " away" } else { "" };
    format!(
        "ending at {} ({:.1} degC, {:.0} min) {verb} {points:.1} points{direction}",
        other.name,
        other.tank,
        other.time / 60.0
    )
}

/// Greatest standing difference between the tank probe and the probe at the coil's inlet, which draws from the tank.
fn layers(burn: &Burn) -> Option<Finding> {
    let (tank, inlet) = (burn.readings.channel(Channel::Tank)?, burn.readings.channel(Channel::CoilIn)?);
    let (mean, time) = widest(burn.readings, tank, inlet)?;
    let probe = |name| with_instrument(burn.context, name, MIDDLE);
    let (u_tank, u_inlet) = (probe("tank"), probe("coil_in"));
    let u = UncertainValue::combine(&[(1.0, &u_tank), (-1.0, &u_inlet)]).std_uncertainty();
    (mean.abs() > LAYERED.max(2.0 * u)).then(|| {
        let words = format!(
            "the tank probe and the coil's inlet differ by {:.1} K over a quarter of the log around {:.0} min: one probe is not the tank's mean",
            mean.abs(),
            time / 60.0
        );
        Finding::note_text("tank-layered", words)
            .hint("stir or draw the tank through before the first and the last reading, or read it at several heights")
    })
}

/// The quarter of the log with the greatest mean difference of two columns, and its middle.
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
