//! Text measured without a font: an estimate on the wide side, used to wrap and to keep labels apart.

/// Estimated width of a text in a sans-serif face.
pub(crate) fn width(text: &str, size: f64, bold: bool) -> f64 {
    let units: f64 = text.chars().map(advance).sum();
    units * size * if bold { 1.16 } else { 1.0 }
}

/// Width of a character in units of the font size.
fn advance(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | 'I' => 0.29,
        'f' | 't' | 'r' | ' ' | '\u{a0}' | '(' | ')' | '-' | '/' => 0.37,
        '\u{202f}' => 0.2,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 0.94,
        c if c.is_uppercase() => 0.7,
        c if c.is_ascii() => 0.6,
        _ => 0.65,
    }
}

/// Lines no wider than `room`, broken at blanks; a single long word is left whole.
pub(crate) fn wrap(text: &str, size: f64, bold: bool, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match lines.last_mut() {
            Some(line) if width(line, size, bold) + width(word, size, bold) + 0.3 * size <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// The text, cut with an ellipsis where it is wider than `room`.
pub(crate) fn shorten(text: &str, size: f64, bold: bool, room: f64) -> String {
    if width(text, size, bold) <= room {
        return text.to_owned();
    }
    let mut cut = String::new();
    for c in text.chars() {
        if width(&cut, size, bold) + advance(c) * size + 0.7 * size > room {
            break;
        }
        cut.push(c);
    }
    cut.trim_end().to_owned() + "…"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_keep_to_the_room_and_lose_no_word() {
        let text = "rocket turns more of its wood into hot water than box, and that is settled";
        let lines = wrap(text, 15.0, true, 200.0);
        assert!(lines.len() > 2 && lines.iter().all(|l| width(l, 15.0, true) <= 200.0), "{lines:?}");
        assert_eq!(lines.join(" "), text);
        assert!(width(&shorten(text, 15.0, false, 90.0), 15.0, false) <= 95.0);
    }
}
