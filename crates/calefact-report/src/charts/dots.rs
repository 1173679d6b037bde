//! Dot-and-interval chart: one strip a group, every single trial a mark, the interval of the mean as a bar beside them,
//! the interval for the next trial as a thin line.

use super::frame::{self, MARGIN, SIZE, SMALL};
use crate::ReportError;
use crate::figure::{
    Align, Canvas, Colour, Font, GRID, INK, MUTED, Mark, PAPER, SERIES, SOFT, Scale, WIDTH, hull, shorten, sieved,
    width,
};

/// One strip, values in the unit shown.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Strip {
    /// Name of the group.
    pub(super) label: String,
    /// Mean, interval and number of trials as words.
    pub(super) words: String,
    /// Single trials.
    pub(super) points: Vec<f64>,
    /// Mean.
    pub(super) mean: f64,
    /// Interval of the mean.
    pub(super) interval: (f64, f64),
    /// Interval for the next trial.
    pub(super) predict: Option<(f64, f64)>,
}

const STRIP: f64 = 66.0;
const FOOT: f64 = 46.0;

/// Draws the chart; tells how many marks are hidden by others.
pub(super) fn draw(title: &str, axis: &str, strips: &[Strip]) -> Result<(String, usize), ReportError> {
    let lines = frame::title_lines(title);
    let top = frame::title_height(&lines) + 4.0;
    let bottom = top + STRIP * strips.len() as f64 + 4.0;
    let mut canvas = Canvas::new(bottom + FOOT);
    frame::title(&mut canvas, &lines);
    let scale = scale(strips);
    frame::x_axis(&mut canvas, &scale, (top, bottom), axis);
    let mut hidden = 0;
    for (i, strip) in strips.iter().enumerate() {
        hidden += draw_strip(&mut canvas, &scale, strip, top + STRIP * i as f64, i);
    }
    Ok((canvas.finish(title)?, hidden))
}

/// Room for all marks and means; intervals far wider than these run out of the frame and end in an arrow.
fn scale(strips: &[Strip]) -> Scale {
    let inner = |s: &Strip| s.points.iter().copied().chain([s.mean]).collect::<Vec<_>>();
    let outer = |s: &Strip| {
        [s.interval.0, s.interval.1]
            .into_iter()
            .chain(s.predict.into_iter().flat_map(|p| [p.0, p.1]))
            .collect::<Vec<_>>()
    };
    let (low, high) = hull(strips.iter().flat_map(inner)).unwrap_or((0.0, 1.0));
    // Marks that all stand in one place tell nothing of the room: the intervals do.
    let reach = if high > low { 0.8 * (high - low).max(0.02 * high.abs()) } else { f64::INFINITY };
    let kept = strips.iter().flat_map(outer).map(|v| v.clamp(low - reach, high + reach));
    let scale = Scale::around(kept.chain([low, high]), 0.04, (MARGIN + 10.0, WIDTH - MARGIN - 10.0));
    if low >= 0.0 { scale.not_below_zero() } else { scale }
}

fn draw_strip(canvas: &mut Canvas, scale: &Scale, strip: &Strip, top: f64, index: usize) -> usize {
    let colour = SERIES[index % SERIES.len()];
    let room = WIDTH - 2.0 * MARGIN - width(&strip.words, SMALL, false) - 14.0;
    canvas.bar((MARGIN, top + 2.0), (WIDTH - MARGIN, top + 23.0), PAPER, 0.92);
    let label = shorten(&strip.label, SIZE, true, room);
    canvas.text(label, (MARGIN, top + 13.0), Font::bold(SIZE, INK), Align::Start);
    canvas.text(&strip.words, (WIDTH - MARGIN, top + 13.0), Font::plain(SMALL, MUTED), Align::End);
    let y = top + 34.0;
    if let Some(predict) = strip.predict {
        span(canvas, scale, predict, y, SOFT, 1.4);
    }
    span(canvas, scale, strip.interval, y, colour, 5.0);
    canvas.mark(Mark(index), (scale.at(strip.mean), y), 7.6, PAPER);
    canvas.mark(Mark(index), (scale.at(strip.mean), y), 6.0, INK);
    let singles = dodge(strip, scale).into_iter().map(|(x, row)| (x, top + 50.0 + 5.5 * f64::from(row)));
    let (singles, hidden) = sieved(singles.collect(), |at| *at);
    for at in singles {
        canvas.mark(Mark(index), at, 3.6, colour);
    }
    canvas.line((MARGIN, top + STRIP), (WIDTH - MARGIN, top + STRIP), GRID, 1.0);
    hidden
}

/// A horizontal span with end strokes, or an arrow where it goes on beyond the frame.
fn span(canvas: &mut Canvas, scale: &Scale, (low, high): (f64, f64), y: f64, colour: Colour, stroke: f64) {
    canvas.line((scale.at(low), y), (scale.at(high), y), colour, stroke);
    for (end, right) in [(low, false), (high, true)] {
        let x = scale.at(end);
        if scale.holds(end) {
            canvas.line((x, y - 5.0), (x, y + 5.0), colour, 1.6);
        } else {
            canvas.arrow((x + if right { 8.0 } else { -8.0 }, y), right, colour);
        }
    }
}

/// Positions of the single marks: those that would cover each other go to the next of three rows.
fn dodge(strip: &Strip, scale: &Scale) -> Vec<(f64, u8)> {
    let mut xs: Vec<f64> = strip.points.iter().filter(|v| v.is_finite()).map(|v| scale.at(*v)).collect();
    xs.sort_by(f64::total_cmp);
    let mut last = [f64::NEG_INFINITY; 3];
    let mut placed = Vec::with_capacity(xs.len());
    for x in xs {
        let free = last.iter().position(|l| x - l >= 7.5);
        let row = free.unwrap_or_else(|| (0..3).min_by(|a, b| last[*a].total_cmp(&last[*b])).unwrap_or(0));
        last[row] = x;
        placed.push((x, row as u8));
    }
    placed
}
