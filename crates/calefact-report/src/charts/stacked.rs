//! Stacked bars of shares, one bar a trial, a group, a quantity: names above the first bar, numbers inside the parts. A share
//! that is known only within a range has the range for its number.

mod labels;

use super::frame::{self, MARGIN, SIZE, SMALL};
use crate::ReportError;
use crate::figure::{Align, Canvas, Colour, Font, INK, MUTED, PAPER, Scale, WIDTH, shorten, width};
use crate::words::Typography;

const ROW: f64 = 46.0;
const BAR: f64 = 20.0;
/// Length of an interval from which on its ends are shown instead of a number.
const WIDE: f64 = 0.08;

/// A part of a bar.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Part {
    /// Its name.
    pub(super) words: String,
    /// Its share; negative parts run to the left of zero.
    pub(super) share: f64,
    /// Fill, and ink that can be read on it. A part filled with paper is what nothing explains: an open box.
    pub(super) fill: (Colour, Colour),
    /// Interval of the share, where it is to be shown.
    pub(super) range: Option<(f64, f64)>,
}

impl Part {
    /// A part whose share has no interval.
    pub(super) fn exact(words: String, share: f64, fill: (Colour, Colour)) -> Self {
        Self { words, share, fill, range: None }
    }

    /// Whether it is what nothing explains.
    fn is_open(&self) -> bool {
        self.fill.0 == PAPER
    }

    /// Share in per cent, or its range where a single number would promise too much.
    fn number(&self) -> String {
        let whole = |share: f64| Typography::Page.fixed(100.0 * share, 0);
        match self.range {
            Some((low, high)) if self.is_open() || high - low > WIDE => {
                format!("{} to {}", whole(low), whole(high.min(1.0)))
            }
            _ => whole(self.share),
        }
    }
}

/// A bar.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bar {
    /// Its name.
    pub(super) name: String,
    /// Its parts, from the left.
    pub(super) parts: Vec<Part>,
}

/// A part with its start and end in per cent.
type Segment<'a> = (&'a Part, f64, f64);

/// Draws the bars under a title; nothing is drawn without a bar.
pub(super) fn draw(title: &str, axis: &str, bars: &[Bar]) -> Result<String, ReportError> {
    let lines = frame::title_lines(title);
    let scale = scale(bars);
    let labels = bars.first().map_or_else(Vec::new, |bar| labels::place(&named(&bar.parts, &scale)));
    let rows = labels.iter().map(|l| l.row + 1).max().unwrap_or(0);
    let top = frame::title_height(&lines) + 16.0 * rows as f64 + 8.0;
    let bottom = top + ROW * bars.len() as f64 + 2.0;
    let mut canvas = Canvas::new(bottom + 46.0);
    frame::title(&mut canvas, &lines);
    frame::x_axis(&mut canvas, &scale, (top, bottom), axis);
    for label in labels {
        let y = top - 10.0 - 16.0 * label.row as f64;
        canvas.line((label.x, y + 8.0), (label.x, top + ROW - BAR - 5.0), MUTED, 0.7);
        canvas.text(label.text, (label.from, y), Font::plain(SMALL, INK), Align::Start);
    }
    for (i, bar) in bars.iter().enumerate() {
        draw_bar(&mut canvas, bar, &unnamed(bars, i), &scale, top + ROW * i as f64);
    }
    canvas.finish(title)
}

fn scale(bars: &[Bar]) -> Scale {
    let ends = bars.iter().flat_map(|bar| {
        let positive: f64 = bar.parts.iter().map(|p| p.share.max(0.0)).sum();
        let negative: f64 = bar.parts.iter().map(|p| p.share.min(0.0)).sum();
        [100.0 * positive, 100.0 * negative]
    });
    Scale::around(ends.chain([0.0, 100.0]), 0.0, (MARGIN + 6.0, WIDTH - MARGIN - 8.0))
}

fn segments(parts: &[Part]) -> Vec<Segment<'_>> {
    let (mut right, mut left) = (0.0, 0.0);
    let mut segments = Vec::with_capacity(parts.len());
    for part in parts.iter().filter(|p| p.share != 0.0) {
        let edge = if part.share < 0.0 { &mut left } else { &mut right };
        let start: f64 = *edge;
        *edge += 100.0 * part.share;
        segments.push((part, start, *edge));
    }
    segments
}

/// Middle and name of each part.
fn named(parts: &[Part], scale: &Scale) -> Vec<(f64, String)> {
    let name = |part: &Part| shorten(&part.words, SMALL, false, WIDTH - 2.0 * MARGIN);
    segments(parts).into_iter().map(|(p, a, b)| (0.5 * (scale.at(a) + scale.at(b)), name(p))).collect()
}

/// Parts of a bar that no earlier bar has, in words; the first bar's are named above it.
fn unnamed(bars: &[Bar], index: usize) -> String {
    let named = |words: &str| {
        index == 0 || bars[..index].iter().flat_map(|b| &b.parts).any(|p| p.share != 0.0 && p.words == words)
    };
    let new = bars[index].parts.iter().filter(|p| p.share != 0.0 && !named(&p.words));
    let words: Vec<String> = new.map(|p| format!("{} {}", p.words, Typography::Page.percent(p.share))).collect();
    if words.is_empty() { String::new() } else { format!("with {}", words.join(", ")) }
}

fn draw_bar(canvas: &mut Canvas, bar: &Bar, beside: &str, scale: &Scale, top: f64) {
    let name = shorten(&bar.name, SIZE, true, WIDTH - 2.0 * MARGIN);
    let (y0, y1) = (top + ROW - BAR - 5.0, top + ROW - 5.0);
    let end = MARGIN + 8.0 + width(&name, SMALL, true);
    canvas.bar((MARGIN, top + 3.0), (end, y0 - 1.0), PAPER, 0.9);
    canvas.text(name, (MARGIN + 6.0, y0 - 9.0), Font::bold(SMALL, INK), Align::Start);
    let beside = shorten(beside, SMALL, false, WIDTH - MARGIN - end - 8.0);
    canvas.text(beside, (WIDTH - MARGIN, y0 - 9.0), Font::plain(SMALL, MUTED), Align::End);
    for segment in segments(&bar.parts) {
        draw_part(canvas, segment, scale, (y0, y1));
    }
}

fn draw_part(canvas: &mut Canvas, (part, start, end): Segment<'_>, scale: &Scale, (y0, y1): (f64, f64)) {
    let (fill, ink) = part.fill;
    let (a, b) = (scale.at(start.min(end)), scale.at(start.max(end)));
    canvas.bar((a, y0), (b, y1), fill, 1.0);
    if part.is_open() {
        canvas.path(vec![(a, y0), (b, y0), (b, y1), (a, y1), (a, y0)], MUTED, 1.0, 1.0);
        reach(canvas, part, end, scale, y1 + 3.0);
    } else {
        canvas.line((b, y0), (b, y1), PAPER, 1.0);
    }
    let number = part.number();
    if b - a > width(&number, SMALL, false) + 6.0 {
        canvas.text(number, (0.5 * (a + b), 0.5 * (y0 + y1)), Font::plain(SMALL, ink), Align::Middle);
    }
}

/// A line under an open part: where it may begin, the other parts being uncertain.
fn reach(canvas: &mut Canvas, part: &Part, end: f64, scale: &Scale, y: f64) {
    let Some((low, high)) = part.range.filter(|_| part.share > 0.0) else { return };
    let (a, b) = (scale.at(end - 100.0 * high), scale.at(end - 100.0 * low));
    canvas.line((a, y), (b, y), INK, 1.6);
    for x in [a, b] {
        canvas.line((x, y - 2.5), (x, y + 2.5), INK, 1.6);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_known_only_within_a_range_shows_its_ends() {
        let part = |fill, range| Part { range: Some(range), ..Part::exact("wood left".into(), 0.2, (fill, INK)) };
        assert_eq!(part(MUTED, (0.19, 0.21)).number(), "20");
        assert_eq!(part(MUTED, (0.05, 0.35)).number(), "5 to 35");
        assert_eq!(part(PAPER, (-0.04, 1.49)).number(), "−4 to 100", "no share exceeds the whole");
    }
}
