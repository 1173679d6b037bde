//! What all charts share: the title in words at the top, axes with ticks and units.

use crate::figure::{Align, Canvas, Font, GRID, INK, MUTED, Scale, WIDTH, wrap};
use crate::words::Typography;

/// Left and right margin.
pub(super) const MARGIN: f64 = 12.0;
/// Size of ordinary words.
pub(super) const SIZE: f64 = 14.0;
/// Size of axis numbers and remarks.
pub(super) const SMALL: f64 = 12.5;

const TITLE: f64 = 16.5;

/// Lines of a title.
pub(super) fn title_lines(title: &str) -> Vec<String> {
    wrap(title, TITLE, true, WIDTH - 2.0 * MARGIN)
}

/// Height a title takes.
pub(super) fn title_height(lines: &[String]) -> f64 {
    16.0 + 21.0 * lines.len() as f64
}

/// Draws the title at the top.
pub(super) fn title(canvas: &mut Canvas, lines: &[String]) {
    for (i, line) in lines.iter().enumerate() {
        canvas.text(line, (MARGIN, 19.0 + 21.0 * i as f64), Font::bold(TITLE, INK), Align::Start);
    }
}

/// A vertical grid with numbers and axis words below, between two heights.
pub(super) fn x_axis(canvas: &mut Canvas, scale: &Scale, (top, bottom): (f64, f64), label: &str) {
    let (ticks, places) = scale.ticks(5);
    for tick in ticks {
        let x = scale.at(tick);
        canvas.line((x, top), (x, bottom), GRID, 1.0);
        canvas.text(Typography::Page.fixed(tick, places), (x, bottom + 12.0), Font::plain(SMALL, MUTED), Align::Middle);
    }
    let middle = 0.5 * (scale.range.0 + scale.range.1);
    canvas.text(label, (middle, bottom + 30.0), Font::plain(SIZE, INK), Align::Middle);
}

/// A horizontal grid with numbers at the left, between two widths.
pub(super) fn y_axis(canvas: &mut Canvas, scale: &Scale, (left, right): (f64, f64), count: usize) {
    let (ticks, places) = scale.ticks(count);
    for tick in ticks {
        let y = scale.at(tick);
        canvas.line((left, y), (right, y), GRID, 1.0);
        canvas.text(Typography::Page.fixed(tick, places), (left - 6.0, y), Font::plain(SMALL, MUTED), Align::End);
    }
}

/// Heights for labels that would like to be at `wanted`, at least `gap` apart, within two limits; order is kept.
pub(super) fn spread(wanted: &[f64], gap: f64, (top, bottom): (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|a, b| wanted[*a].total_cmp(&wanted[*b]));
    let mut placed = wanted.to_vec();
    let mut floor = top;
    for i in &order {
        placed[*i] = placed[*i].max(floor);
        floor = placed[*i] + gap;
    }
    let mut ceiling = bottom;
    for i in order.iter().rev() {
        placed[*i] = placed[*i].min(ceiling);
        ceiling = placed[*i] - gap;
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn labels_keep_their_distance_and_their_order() {
        let placed = spread(&[50.0, 51.0, 95.0, 96.0], 10.0, (0.0, 100.0));
        assert_eq!(placed, [50.0, 60.0, 90.0, 100.0]);
    }
}
