//! From the list of a canvas to SVG, by plotters. The only file that knows plotters.
//!
//! The backend works in whole units, so it is given tenths of a chart unit.

use super::canvas::{Align, Canvas, Font, Item, Pen};
use super::{WIDTH, words};
use crate::ReportError;
use crate::words::printable;
use plotters::prelude::SVGBackend;
use plotters_backend::text_anchor::{HPos, Pos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind, FontFamily, FontStyle,
};
use std::fmt;

/// Backend units per chart unit.
const FINE: f64 = 10.0;
/// Faces asked for; none is embedded.
const FACES: &str = "system-ui, -apple-system, Segoe UI, Helvetica Neue, Arial, sans-serif";

impl Canvas {
    /// The chart as an SVG document with a title for readers who do not see it.
    pub(crate) fn finish(self, title: &str) -> Result<String, ReportError> {
        svg(&self.items, (WIDTH, self.height), title)
    }
}

/// Draws the items into an SVG document that scales to its place.
fn svg(items: &[Item], (width, height): (f64, f64), title: &str) -> Result<String, ReportError> {
    let mut drawn = String::new();
    {
        let (w, h) = point((width, height));
        let mut backend = SVGBackend::with_string(&mut drawn, (w.unsigned_abs(), h.unsigned_abs()));
        let result = items.iter().try_for_each(|item| draw(&mut backend, item)).and_then(|()| backend.present());
        result.map_err(|e| ReportError::Draw { what: title.to_owned(), message: e.to_string() })?;
    }
    // The backend's opening tag fixes the size in pixels; ours lets the chart fill its place.
    let body = drawn.split_once('\n').map_or("", |(_, body)| body);
    let (w, h) = point((width, height));
    let title = escape(title);
    Ok(printable(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {w} {h}\" role=\"img\" aria-label=\"{title}\">\n<title>{title}</title>\n{body}"
    )))
}

type Drawn = Result<(), DrawingErrorKind<<SVGBackend<'static> as DrawingBackend>::ErrorType>>;

fn draw(backend: &mut SVGBackend<'_>, item: &Item) -> Drawn {
    match item {
        Item::Path(points, pen) => backend.draw_path(points.iter().copied().map(point), pen),
        Item::Fill(points, pen) => backend.fill_polygon(points.iter().copied().map(point), pen),
        Item::Dot(at, r, pen) => backend.draw_circle(point(*at), (r * FINE).round() as u32, pen, true),
        Item::Text { text, at, font, align } => {
            backend.draw_text(text, &Style { font: *font, align: *align }, point(*at))
        }
    }
}

fn point((x, y): (f64, f64)) -> BackendCoord {
    ((x * FINE).round() as i32, (y * FINE).round() as i32)
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

impl BackendStyle for Pen {
    fn color(&self) -> BackendColor {
        BackendColor { alpha: self.alpha, rgb: self.colour }
    }

    fn stroke_width(&self) -> u32 {
        (self.width * FINE).round() as u32
    }
}

struct Style {
    font: Font,
    align: Align,
}

impl BackendTextStyle for Style {
    type FontError = fmt::Error;

    fn color(&self) -> BackendColor {
        BackendColor { alpha: 1.0, rgb: self.font.colour }
    }

    /// The backend divides by 1.24 to get from the height of a line to the size of the letters.
    fn size(&self) -> f64 {
        (self.font.size * FINE).round() * 1.24
    }

    fn style(&self) -> FontStyle {
        if self.font.bold { FontStyle::Bold } else { FontStyle::Normal }
    }

    fn anchor(&self) -> Pos {
        let h = match self.align {
            Align::Start => HPos::Left,
            Align::Middle => HPos::Center,
            Align::End => HPos::Right,
        };
        Pos::new(h, VPos::Center)
    }

    fn family(&self) -> FontFamily<'_> {
        FontFamily::Name(FACES)
    }

    fn layout_box(&self, text: &str) -> Result<((i32, i32), (i32, i32)), Self::FontError> {
        let width = words::width(text, self.font.size * FINE, self.font.bold) as i32;
        Ok(((0, 0), (width, (self.font.size * FINE) as i32)))
    }

    /// Pixels are never asked for by a vector backend.
    fn draw<E, F>(&self, _: &str, _: BackendCoord, _: F) -> Result<Result<(), E>, Self::FontError>
    where
        F: FnMut(i32, i32, BackendColor) -> Result<(), E>,
    {
        Err(fmt::Error)
    }
}
