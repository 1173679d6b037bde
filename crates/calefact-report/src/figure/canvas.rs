//! The canvas: lines, bars, marks and words in plain coordinates, kept as a list until the backend writes them.

use super::{Colour, PAPER, WIDTH};

/// Where a text sits on its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Align {
    /// Begins at the point.
    Start,
    /// Is centred on the point.
    Middle,
    /// Ends at the point.
    End,
}

/// Size, weight and colour of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Font {
    /// Size in chart units.
    pub(crate) size: f64,
    /// Bold or not.
    pub(crate) bold: bool,
    /// Colour.
    pub(crate) colour: Colour,
}

impl Font {
    /// Plain text.
    pub(crate) const fn plain(size: f64, colour: Colour) -> Self {
        Self { size, bold: false, colour }
    }

    /// Bold text.
    pub(crate) const fn bold(size: f64, colour: Colour) -> Self {
        Self { size, bold: true, colour }
    }
}

/// Colour, opacity and width of a line or fill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pen {
    /// Colour.
    pub(crate) colour: Colour,
    /// Opacity, 0 to 1.
    pub(crate) alpha: f64,
    /// Width of a line.
    pub(crate) width: f64,
}

/// One thing on a canvas.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Item {
    /// Connected lines.
    Path(Vec<(f64, f64)>, Pen),
    /// A filled polygon.
    Fill(Vec<(f64, f64)>, Pen),
    /// A filled circle.
    Dot((f64, f64), f64, Pen),
    /// A text, its middle height on the point.
    Text { text: String, at: (f64, f64), font: Font, align: Align },
}

/// Shape of a point; differs between groups so that colour is not needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Mark(pub(crate) usize);

/// A chart in the making.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Canvas {
    /// Height in chart units.
    pub(super) height: f64,
    /// In the order in which they are drawn.
    pub(super) items: Vec<Item>,
}

impl Canvas {
    /// An empty white canvas of the usual width.
    pub(crate) fn new(height: f64) -> Self {
        let mut canvas = Self { height, items: Vec::new() };
        canvas.bar((0.0, 0.0), (WIDTH, height), PAPER, 1.0);
        canvas
    }

    /// A straight line.
    pub(crate) fn line(&mut self, from: (f64, f64), to: (f64, f64), colour: Colour, width: f64) {
        self.path(vec![from, to], colour, width, 1.0);
    }

    /// Connected lines.
    pub(crate) fn path(&mut self, points: Vec<(f64, f64)>, colour: Colour, width: f64, alpha: f64) {
        self.items.push(Item::Path(points, Pen { colour, alpha, width }));
    }

    /// A filled rectangle between two corners.
    pub(crate) fn bar(&mut self, (x0, y0): (f64, f64), (x1, y1): (f64, f64), colour: Colour, alpha: f64) {
        self.area(vec![(x0, y0), (x1, y0), (x1, y1), (x0, y1)], colour, alpha);
    }

    /// A filled polygon.
    pub(crate) fn area(&mut self, corners: Vec<(f64, f64)>, colour: Colour, alpha: f64) {
        self.items.push(Item::Fill(corners, Pen { colour, alpha, width: 0.0 }));
    }

    /// A text whose middle height lies on the point.
    pub(crate) fn text(&mut self, text: impl Into<String>, at: (f64, f64), font: Font, align: Align) {
        self.items.push(Item::Text { text: text.into(), at, font, align });
    }

    /// A point in one of six shapes, `r` being the radius of the circle of about the same area.
    pub(crate) fn mark(&mut self, mark: Mark, (x, y): (f64, f64), r: f64, colour: Colour) {
        let pen = Pen { colour, alpha: 1.0, width: 0.0 };
        let at = |points: &[(f64, f64)]| points.iter().map(|(a, b)| (x + a * r, y + b * r)).collect();
        let corners: &[(f64, f64)] = match mark.0 % 6 {
            0 => return self.items.push(Item::Dot((x, y), r, pen)),
            1 => &[(-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)],
            2 => &[(0.0, -1.25), (1.15, 0.85), (-1.15, 0.85)],
            3 => &[(0.0, -1.3), (1.15, 0.0), (0.0, 1.3), (-1.15, 0.0)],
            4 => &[(0.0, 1.25), (1.15, -0.85), (-1.15, -0.85)],
            _ => &[(-1.4, -0.55), (1.4, -0.55), (1.4, 0.55), (-1.4, 0.55)],
        };
        self.items.push(Item::Fill(at(corners), pen));
    }

    /// A horizontal arrow head at the end of a line that goes on beyond the frame.
    pub(crate) fn arrow(&mut self, (x, y): (f64, f64), to_right: bool, colour: Colour) {
        let back = if to_right { x - 6.0 } else { x + 6.0 };
        let corners = vec![(x, y), (back, y - 4.0), (back, y + 4.0)];
        self.items.push(Item::Fill(corners, Pen { colour, alpha: 1.0, width: 0.0 }));
    }
}
