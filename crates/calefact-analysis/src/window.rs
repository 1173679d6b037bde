//! Which part of a log a trial is reduced over.

use crate::fact::TrialFact;
use crate::series::Series;
use crate::settings::{End, Settings, Window};
use calefact_data::{Readings, TrialKind};

/// Start and end of the window, s, and whether it is the whole trial (so that weighed fuel belongs to it).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Span {
    /// Start, s.
    pub(crate) start: f64,
    /// End, s.
    pub(crate) end: f64,
    /// Whether the window covers the trial from lighting to its end.
    pub(crate) whole: bool,
}

/// The window of a trial. Standing-loss trials are always reduced whole.
///
/// # Errors
/// The fact when the log never reaches the window or the stated end.
pub(crate) fn find(
    series: &Series,
    readings: &Readings,
    kind: TrialKind,
    settings: &Settings,
) -> Result<Span, TrialFact> {
    let (Some(&start), Some(&last)) = (series.t.first(), series.t.last()) else {
        return Err(TrialFact::NoTankReading);
    };
    let whole = Span { start, end: last, whole: true };
    if kind == TrialKind::StandingLoss {
        return Ok(whole);
    }
    match settings.window {
        Window::WholeLog => Ok(Span { end: end_of(series, readings, kind, settings.end)?, ..whole }),
        Window::Between { from, to } => between(series, from, to),
    }
}

fn between(series: &Series, from: f64, to: f64) -> Result<Span, TrialFact> {
    let miss = |edge_degc| TrialFact::WindowNotReached { edge_degc };
    let start = series.first_rise_through(from, f64::NEG_INFINITY).ok_or_else(|| miss(from))?;
    let end = series.first_rise_through(to, start).ok_or_else(|| miss(to))?;
    Ok(Span { start, end, whole: false })
}

fn end_of(series: &Series, readings: &Readings, kind: TrialKind, end: End) -> Result<f64, TrialFact> {
    let last = series.t.last().copied().unwrap_or(f64::NAN);
    let (found, otherwise) = match end {
        _ if kind != TrialKind::Burn => return Ok(last),
        End::LastReading => return Ok(last),
        End::Peak => return Ok(peak(series)),
        End::Target(level) => {
            (series.first_rise_through(level, f64::NEG_INFINITY), TrialFact::TargetNotReached { target_degc: level })
        }
        End::FireOut => (fire_out(readings), TrialFact::NoFireOut),
    };
    found.ok_or(otherwise)
}

/// Time of the first `fire out` event.
pub(crate) fn fire_out(readings: &Readings) -> Option<f64> {
    let event = readings.events.iter().find(|e| e.text.to_lowercase().replace(['-', '_'], " ").contains("fire out"))?;
    readings.elapsed_s.get(event.row).copied()
}

/// Time of the highest tank temperature, the first of equals.
pub(crate) fn peak(series: &Series) -> f64 {
    let mut best = (f64::NEG_INFINITY, f64::NAN);
    for (&t, &tank) in series.t.iter().zip(&series.tank) {
        if tank > best.0 {
            best = (tank, t);
        }
    }
    best.1
}
