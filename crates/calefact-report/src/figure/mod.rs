//! A thin drawing layer of our own over plotters' SVG backend: canvas, scale, palette, words. Charts know only this
//! layer, so that the backend can be replaced in one file.

mod backend;
mod canvas;
mod palette;
mod scale;
mod sieve;
mod words;

pub(crate) use canvas::{Align, Canvas, Font, Mark};
pub(crate) use palette::{
    Colour, DARK_ON_FILL, GRID, INK, MUTED, PALE_ON_FILL, PAPER, SERIES, SOFT, STEADY, dark_rules, term_fill,
};
pub(crate) use scale::{Scale, hull};
pub(crate) use sieve::sieved;
pub(crate) use words::{shorten, width, wrap};

/// Width of every chart; heights follow from what is shown. Narrow, so that text stays readable on a phone.
pub(crate) const WIDTH: f64 = 460.0;
