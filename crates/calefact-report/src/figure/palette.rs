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

/// Dark words on a pale part; they stay dark on a dark page, as the part stays pale.
pub(crate) const DARK_ON_FILL: Colour = (32, 28, 24);
/// Pale words on a dark part.
pub(crate) const PALE_ON_FILL: Colour = (254, 254, 254);
/// Ground of the steady part of a fire.
pub(crate) const STEADY: Colour = (246, 238, 222);

/// Colours of groups.
pub(crate) const SERIES: [Colour; 7] =
    [(0, 114, 178), (213, 94, 0), (0, 130, 96), (176, 92, 143), (36, 132, 190), (176, 116, 0), (70, 70, 70)];

/// Fill of a term of the balance, and the colour of words on it: what is of use in blues, what leaves in warm tones, the
/// rest grey, what no reading explains left open; neighbours differ in lightness.
pub(crate) fn term_fill(term: &str) -> (Colour, Colour) {
    match term {
        "stored" => ((0, 94, 150), PALE_ON_FILL),
        "standing_loss" => ((134, 192, 226), DARK_ON_FILL),
        "flue_sensible" => ((190, 82, 0), PALE_ON_FILL),
        "flue_latent" => ((243, 184, 116), DARK_ON_FILL),
        "flue_co" => ((110, 44, 16), PALE_ON_FILL),
        "leftover_char" => ((52, 48, 44), PALE_ON_FILL),
        "unaccounted" => (PAPER, INK),
        _ => ((150, 146, 140), DARK_ON_FILL),
    }
}

/// Colours of lines, words and grounds on a dark page; fills with words on them stay.
const DARK: [(Colour, Colour); 13] = [
    (INK, (236, 230, 220)),
    (MUTED, (181, 173, 162)),
    (GRID, (62, 57, 51)),
    (SOFT, (128, 121, 111)),
    (PAPER, (31, 28, 25)),
    (STEADY, (58, 49, 34)),
    (SERIES[0], (90, 169, 221)),
    (SERIES[1], (240, 133, 58)),
    (SERIES[2], (63, 184, 148)),
    (SERIES[3], (213, 138, 184)),
    (SERIES[4], (116, 188, 232)),
    (SERIES[5], (220, 166, 60)),
    (SERIES[6], (185, 185, 185)),
];

/// Style rules that turn the charts of a page dark.
pub(crate) fn dark_rules() -> String {
    let hex = |(r, g, b): Colour| format!("#{r:02X}{g:02X}{b:02X}");
    let rule = |(light, dark): &(Colour, Colour)| {
        let (light, dark) = (hex(*light), hex(*dark));
        format!("svg [fill=\"{light}\"] {{ fill: {dark}; }} svg [stroke=\"{light}\"] {{ stroke: {dark}; }}\n")
    };
    DARK.iter().map(rule).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_colour_of_a_line_has_one_for_a_dark_page() {
        let all = SERIES.into_iter().chain([INK, MUTED, GRID, SOFT, PAPER, STEADY]);
        assert!(all.into_iter().all(|colour| DARK.iter().filter(|(light, _)| *light == colour).count() == 1));
        assert!(![DARK_ON_FILL, PALE_ON_FILL].iter().any(|words| DARK.iter().any(|(light, _)| light == words)));
        assert!(dark_rules().contains("svg [fill=\"#211D18\"] { fill: #ECE6DC; }"));
    }
}
