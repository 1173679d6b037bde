//! Text cells that a spreadsheet would run as a formula when it opens a CSV file.

use std::borrow::Cow;

/// The text of a cell. An apostrophe comes first where a spreadsheet would take the text for a formula: it begins with one of
/// `= + - @`, a tab or a carriage return and is neither a number nor a number with a unit.
pub fn as_text(text: &str) -> Cow<'_, str> {
    let is_formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']) && !is_measure(text);
    if is_formula { Cow::Owned(format!("'{text}")) } else { Cow::Borrowed(text) }
}

/// Whether a text is a number, perhaps with words behind it: `-5 degC`.
fn is_measure(text: &str) -> bool {
    let mut words = text.split(' ');
    let is_number = words.next().is_some_and(|word| word.parse::<f64>().is_ok());
    is_number
        && words.all(|word| !word.is_empty() && word.chars().all(|c| c.is_alphanumeric() || matches!(c, '/' | '%')))
}

#[cfg(test)]
mod tests {
    use super::as_text;

    #[test]
    fn formulas_are_marked_as_text() {
        for run in ["=1+1", "=cmd|' /C calc'!A0", "+cmd", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "-5 =1", "-", "-5 a(1)"] {
            assert_eq!(as_text(run), format!("'{run}"));
        }
        for plain in ["-5", "+1e3", "-5 degC", "-3 kg/h", "spruce", "a=b", "", "'=1", "5.6 kg"] {
            assert_eq!(as_text(plain), plain);
        }
    }
}
