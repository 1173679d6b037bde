//! `curves`: tank temperature by time, one small frame a trial, side by side in sets; the fit only where it fits.

mod cell;

use super::frame::{self, MARGIN, SIZE, SMALL};
use super::{Chart, Home};
use crate::ReportError;
use crate::figure::{Align, Canvas, Font, INK, MUTED, Scale, WIDTH};
use crate::words::{DisplayUnit, Measure, Wording, plural};
use calefact_analysis::result::{Analysis, Curves, TrialResult};

/// Frames side by side.
const ACROSS: usize = 4;

const LEFT: f64 = 26.0;
const GAP: f64 = 8.0;
const CELL: f64 = 74.0;
const HEADING: f64 = 26.0;

type Set<'a> = (String, Vec<&'a TrialResult>);

/// Draws the chart, if any trial has a curve.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let trials = |members: &[usize]| members.iter().map(|i| &analysis.shown[*i]).collect();
    let factor = analysis.settings.main_factor();
    let sets: Vec<Set<'_>> =
        analysis.curves.sets.iter().map(|(name, members)| (w.level(factor, name), trials(members))).collect();
    if sets.is_empty() {
        return Ok(None);
    }
    let svg = draw_sets(&sets, &w.unit(Measure::Temperature))?;
    let caption = caption(&sets, &analysis.curves);
    Ok(Some(Chart { file: "curves.svg".to_owned(), home: Home::Curves, svg, caption }))
}

fn caption(sets: &[Set<'_>], curves: &Curves) -> String {
    let Curves { step, trials, all_sets, .. } = *curves;
    let drawn = || sets.iter().flat_map(|(_, trials)| trials);
    let phases = drawn().any(|t| t.phases.certain);
    let misfit = drawn().any(|t| t.fit.as_ref().is_some_and(|f| !f.fits));
    let fitted = drawn().any(|t| cell::fitted(t));
    let black = if misfit {
        "Black: fitted heat balance, left out where it does not fit."
    } else {
        "Black: fitted heat balance."
    };
    let parts = [
        (true, "Coloured: readings, as points where they are few.".to_owned()),
        (fitted, format!(" {black}")),
        (phases, " Shaded: the steady part of the fire.".to_owned()),
        (step > 1, format!(" Of {trials} trials, one in {step} of each set is drawn, counted in register order.")),
        (all_sets > sets.len(), format!(" The first {} of {all_sets} sets are drawn.", sets.len())),
    ];
    parts.into_iter().filter_map(|(say, words)| say.then_some(words)).collect()
}

/// Height of a set: heading, rows of frames, room for the numbers of the time axis.
fn height(set: &Set<'_>) -> f64 {
    HEADING + CELL * set.1.len().div_ceil(ACROSS) as f64 + 18.0
}

fn draw_sets(sets: &[Set<'_>], unit: &DisplayUnit) -> Result<String, ReportError> {
    let title = "How the tank warmed or cooled in each trial";
    let lines = frame::title_lines(title);
    let mut top = frame::title_height(&lines);
    let mut canvas = Canvas::new(top + sets.iter().map(height).sum::<f64>() + 28.0);
    frame::title(&mut canvas, &lines);
    for (i, set) in sets.iter().enumerate() {
        draw_set(&mut canvas, set, unit, (top, i));
        top += height(set);
    }
    let middle = 0.5 * (LEFT + WIDTH - MARGIN);
    canvas.text("Time since the first reading (min)", (middle, top + 10.0), Font::plain(SIZE, INK), Align::Middle);
    canvas.finish(title)
}

/// A set has one scale of time and one of temperature.
fn draw_set(canvas: &mut Canvas, set: &Set<'_>, unit: &DisplayUnit, (top, index): (f64, usize)) {
    let (name, trials) = set;
    let room = (WIDTH - LEFT - MARGIN + GAP) / ACROSS as f64;
    let points = || trials.iter().flat_map(|t| t.curve.measured.iter());
    let time = Scale::around(points().map(|p| p.0 / 60.0), 0.02, (0.0, room - GAP)).with_zero();
    let heat = Scale::around(points().map(|p| unit.value(p.1)), 0.06, (CELL - 4.0, 6.0));
    canvas.text(name, (MARGIN, top + 10.0), Font::bold(SIZE, INK), Align::Start);
    let count = format!("{}, tank in {}", plural(trials.len(), "trial"), unit.symbol);
    canvas.text(count, (WIDTH - MARGIN, top + 10.0), Font::plain(SMALL, MUTED), Align::End);
    for (i, trial) in trials.iter().enumerate() {
        let (row, column) = (i / ACROSS, i % ACROSS);
        let corner = (LEFT + room * column as f64, top + HEADING + CELL * row as f64);
        let last = i + ACROSS >= trials.len();
        cell::Cell { corner, time, heat, unit }.draw(canvas, trial, index, (column == 0, last));
    }
}
