//! Which part of a log a trial is reduced over.

use crate::finding::Finding;
use crate::series::Series;
use crate::settings::{End, Settings, Window};
use calefact_data::{Readings, TrialKind};

/// Start and end of the window, s, and whether it is the whole trial (so that weighed fuel belongs to it).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Start, s.
    pub start: f64,
    /// End, s.
    pub end: f64,
    /// Whether the window covers the trial from lighting to its end.
    pub whole: bool,
}

/// The window of a trial. Standing-loss trials are always reduced whole.
///
/// # Errors
/// A finding when the log never reaches the window or the stated end.
pub fn find(series: &Series, readings: &Readings, kind: TrialKind, settings: &Settings) -> Result<Span, Box<Finding>> {
    let (Some(&start), Some(&last)) = (series.t.first(), series.t.last()) else {
        return Err(Box::new(Finding::error_text(
            "no-tank-reading",
            "the log has no tank temperature that can be read",
        )));
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

fn between(series: &Series, from: f64, to: f64) -> Result<Span, Box<Finding>> {
    let miss = |level: f64| {
        Finding::error_text(
            "window-not-reached",
            format!("the tank never rises through {level:.1} degC, an edge of the window"),
        )
        .hint("choose a window inside the range all logs cover, or leave this trial out with a reason in `exclude`")
    };
    let start = series.first_rise_through(from, f64::NEG_INFINITY).ok_or_else(|| miss(from))?;
    let end = series.first_rise_through(to, start).ok_or_else(|| miss(to))?;
    Ok(Span { start, end, whole: false })
}

fn end_of(series: &Series, readings: &Readings, kind: TrialKind, end: End) -> Result<f64, Box<Finding>> {
    let last = series.t.last().copied().unwrap_or(f64::NAN);
    let (found, otherwise) = match end {
        _ if kind != TrialKind::Burn => return Ok(last),
        End::LastReading => return Ok(last),
        End::Peak => return Ok(peak(series)),
        End::Target(level) => (series.first_rise_through(level, f64::NEG_INFINITY), target_missed(level)),
        End::FireOut => (fire_out(readings), no_fire_out()),
    };
    Ok(found.ok_or(otherwise)?)
}

fn target_missed(level: f64) -> Finding {
    Finding::error_text("target-not-reached", format!("the tank never reaches the target of {level:.1} degC"))
        .hint("choose a target all burns reach, or end burns at `fire out`, the peak or the last reading")
}

fn no_fire_out() -> Finding {
    Finding::error_text("no-fire-out", "no `event` of this log says `fire out`, which the pipeline takes as the end")
        .hint("write `fire out` into the event column, or set `end = \"peak\"` or `\"last reading\"`")
}

/// Time of the first `fire out` event.
pub fn fire_out(readings: &Readings) -> Option<f64> {
    let event = readings.events.iter().find(|e| e.text.to_lowercase().replace(['-', '_'], " ").contains("fire out"))?;
    readings.elapsed_s.get(event.row).copied()
}

/// Time of the highest tank temperature, the first of equals.
pub fn peak(series: &Series) -> f64 {
    let mut best = (f64::NEG_INFINITY, f64::NAN);
    for (&t, &tank) in series.t.iter().zip(&series.tank) {
        if tank > best.0 {
            best = (tank, t);
        }
    }
    best.1
}
