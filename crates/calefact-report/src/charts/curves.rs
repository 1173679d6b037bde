//! `curves`: tank temperature by time, one panel for each level of the first comparison's factor, with the fits.

use super::frame::{self, MARGIN, SIZE, SMALL};
use super::{Chart, Home};
use crate::ReportError;
use crate::figure::{Align, Canvas, Font, INK, MUTED, Mark, SERIES, Scale, WIDTH};
use calefact_analysis::result::{Analysis, TrialResult};

/// Curves drawn one by one; of more, every k-th of each panel is drawn.
const MOST: usize = 60;
/// Panels drawn.
const MOST_PANELS: usize = 8;
/// Curves of a panel that are named at their end.
const MOST_NAMED: usize = 9;
/// Readings of a curve drawn as marks where there is room for marks; of more, every k-th is drawn.
const MARKS: usize = 24;

const PANEL: f64 = 178.0;
const LEFT: f64 = 40.0;
const RIGHT: f64 = 58.0;

type Panel<'a> = (String, Vec<&'a TrialResult>);

/// Draws the chart, if any trial has a curve.
pub(super) fn draw(analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let drawable = analysis.trials.iter().filter(|t| t.curve.measured.len() > 1);
    let all = super::by_set(drawable, super::main_factor(analysis));
    let total: usize = all.iter().map(|(_, trials)| trials.len()).sum();
    if total == 0 {
        return Ok(None);
    }
    let step = total.div_ceil(MOST);
    let panels: Vec<Panel<'_>> =
        all.iter().take(MOST_PANELS).map(|(n, t)| (n.clone(), t.iter().step_by(step).copied().collect())).collect();
    let svg = draw_panels(&panels)?;
    let caption = caption(step, total, all.len());
    Ok(Some(Chart { file: "curves.svg".to_owned(), home: Home::Curves, svg, caption }))
}

fn caption(step: usize, total: usize, sets: usize) -> String {
    let thinned = format!(" Of {total} trials, one in {step} of each panel is drawn, counted in register order.");
    let cut = format!(" The first {MOST_PANELS} of {sets} sets are drawn.");
    format!(
        "Marks: readings, at most {MARKS} a trial; panels of more than {MOST_NAMED} trials show them as lines. Black: fitted heat balance.{}{}",
        if step > 1 { thinned.as_str() } else { "" },
        if sets > MOST_PANELS { cut.as_str() } else { "" },
    )
}

fn draw_panels(panels: &[Panel<'_>]) -> Result<String, ReportError> {
    let title = "How the tank warmed or cooled in each trial";
    let lines = frame::title_lines(title);
    let top = frame::title_height(&lines);
    let bottom = top + PANEL * panels.len() as f64;
    let mut canvas = Canvas::new(bottom + 46.0);
    frame::title(&mut canvas, &lines);
    let x = time_scale(panels);
    for (i, panel) in panels.iter().enumerate() {
        draw_panel(&mut canvas, panel, &x, (top + PANEL * i as f64 + 24.0, top + PANEL * (i + 1) as f64 - 8.0), i);
    }
    frame::x_axis(&mut canvas, &x, (bottom - 8.0, bottom - 4.0), "Time since the first reading (min)");
    canvas.finish(title)
}

fn points(panels: &[Panel<'_>]) -> impl Iterator<Item = (f64, f64)> {
    panels.iter().flat_map(|(_, trials)| trials.iter()).flat_map(|t| t.curve.measured.iter().copied())
}

fn time_scale(panels: &[Panel<'_>]) -> Scale {
    Scale::around(points(panels).map(|p| p.0 / 60.0), 0.0, (LEFT, WIDTH - RIGHT)).with_zero()
}

fn draw_panel(canvas: &mut Canvas, panel: &Panel<'_>, x: &Scale, (top, bottom): (f64, f64), index: usize) {
    let (name, trials) = panel;
    let temperatures = points(std::slice::from_ref(panel)).map(|p| p.1);
    let y = Scale::around(temperatures, 0.04, (bottom, top));
    let count = trials.len();
    canvas.text(name, (MARGIN, top - 13.0), Font::bold(SIZE, INK), Align::Start);
    let said = if count == 1 { "1 trial, tank in °C".to_owned() } else { format!("{count} trials, tank in °C") };
    canvas.text(said, (WIDTH - MARGIN, top - 13.0), Font::plain(SMALL, MUTED), Align::End);
    frame::y_axis(canvas, &y, (LEFT, WIDTH - RIGHT), 4);
    let colour = SERIES[index % SERIES.len()];
    let crowded = count > MOST_NAMED;
    for trial in trials.iter().filter(|_| crowded) {
        canvas.path(place(&trial.curve.measured, x, &y), colour, 1.2, 0.55);
    }
    for trial in trials.iter().filter(|t| t.curve.fitted.len() > 1) {
        canvas.path(place(&trial.curve.fitted, x, &y), INK, 1.0, 1.0);
    }
    if !crowded {
        for trial in trials {
            draw_marks(canvas, &place(&trial.curve.measured, x, &y), index);
        }
        name_ends(canvas, trials, x, &y);
    }
}

/// Readings as marks, every k-th where they are many.
fn draw_marks(canvas: &mut Canvas, measured: &[(f64, f64)], index: usize) {
    let step = measured.len().div_ceil(MARKS).max(1);
    let colour = SERIES[index % SERIES.len()];
    measured.iter().step_by(step).for_each(|p| canvas.mark(Mark(index), *p, 2.6, colour));
}

fn place(curve: &[(f64, f64)], x: &Scale, y: &Scale) -> Vec<(f64, f64)> {
    let seen = curve.iter().filter(|p| p.0.is_finite() && p.1.is_finite());
    seen.map(|(t, temperature)| (x.at(t / 60.0), y.at(*temperature))).collect()
}

/// Writes the trial beside the end of its curve, moved so that no two names meet.
fn name_ends(canvas: &mut Canvas, trials: &[&TrialResult], x: &Scale, y: &Scale) {
    let ends: Vec<(f64, f64)> = trials.iter().filter_map(|t| place(&t.curve.measured, x, y).last().copied()).collect();
    let wanted: Vec<f64> = ends.iter().map(|e| e.1).collect();
    let heights = frame::spread(&wanted, 14.0, (y.range.1, y.range.0));
    for ((trial, end), height) in trials.iter().zip(&ends).zip(heights) {
        let left = WIDTH - RIGHT + 10.0;
        canvas.line((end.0 + 2.0, end.1), (left - 2.0, height), MUTED, 0.6);
        let name = crate::figure::shorten(&trial.row.trial, SMALL, false, RIGHT - 14.0);
        canvas.text(name, (left, height), Font::plain(SMALL, INK), Align::Start);
    }
}
