//! Colours. The series are the colour-blind safe set of Okabe and Ito (Color Universal Design, 2008), darkened where it
//! is too pale for lines on white; shapes and direct labels carry the same distinction, so print in grey loses nothing.

/// Red, green, blue.
pub(crate) type Colour = (u8, u8, u8);

/// Text and axes.
pub(crate) const INK: Colour = (33, 29, 24);
/// Secondary text.
pub(crate) const MUTED: Colour = (96, 90, 82);
/// Grid lines.
pub(crate) const GRID: Colour = (226, 221, 212);
/// Pale strokes behind a fit.
pub(crate) const SOFT: Colour = (170, 163, 153);
/// Background.
pub(crate) const PAPER: Colour = (255, 255, 255);

/// Colours of groups.
pub(crate) const SERIES: [Colour; 7] =
    [(0, 114, 178), (213, 94, 0), (0, 130, 96), (176, 92, 143), (36, 132, 190), (176, 116, 0), (70, 70, 70)];

/// Fill of a term of the balance, and the colour of words on it: what is of use in blues, what leaves in warm tones, the
/// rest grey; neighbours differ in lightness.
pub(crate) fn term_fill(term: &str) -> (Colour, Colour) {
    match term {
        "stored" => ((0, 94, 150), PAPER),
        "standing_loss" => ((134, 192, 226), INK),
        "flue_sensible" => ((190, 82, 0), PAPER),
        "flue_latent" => ((243, 184, 116), INK),
        "flue_co" => ((110, 44, 16), PAPER),
        "leftover_char" => ((52, 48, 44), PAPER),
        "unaccounted" => ((214, 209, 201), INK),
        _ => ((150, 146, 140), INK),
    }
}
