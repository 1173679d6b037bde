//! Words for units and quantities that cannot be read, the same for every kind of file.

use super::Wording;
use super::text::choice;
use calefact_units::{Kind, UnitError, symbols};

/// Most units that a hint lists.
const LISTED: usize = 8;

/// The error, as a fragment.
pub(super) fn text(w: &Wording<'_>, error: &UnitError) -> String {
    match error {
        UnitError::Unknown { text, kind, .. } if text.trim().is_empty() => {
            format!("there is no unit; expected one of {}", kind.words())
        }
        UnitError::Unknown { text, kind, .. } => format!("unknown unit {} for {}", w.quoted(text), kind.words()),
        UnitError::Ambiguous { text, choices } => {
            format!("the unit {} has more than one meaning: write {choices}", w.quoted(text))
        }
        UnitError::WrongKind { text, found, kind } => {
            format!("{} is a unit of {}; expected one of {}", w.quoted(text), found.words(), kind.words())
        }
        UnitError::NoNumber { text } => format!("{} does not begin with a number", w.quoted(text)),
        UnitError::Comma { text } => {
            format!("{} has a comma in its number: write a decimal point, and no thousands separator", w.quoted(text))
        }
    }
}

/// What the person can do, where the text does not say it.
pub(super) fn hint(w: &Wording<'_>, error: &UnitError) -> Option<String> {
    match error {
        UnitError::Unknown { nearest: Some(near), .. } => Some(format!("did you mean {}?", w.quoted(near))),
        UnitError::Unknown { kind, .. } => Some(units(w, *kind)),
        _ => None,
    }
}

/// "write one of `kg`, `g` or `lb`".
fn units(w: &Wording<'_>, kind: Kind) -> String {
    let known: Vec<String> = symbols(kind).take(LISTED).map(|symbol| w.quoted(symbol)).collect();
    format!("write {}", choice(&known))
}

#[cfg(test)]
mod tests {
    use super::{hint, text};
    use crate::words::Wording;
    use calefact_units::{Kind, parse_quantity};

    #[test]
    fn each_error_in_words() {
        let cases = [
            ("12 mim", Kind::Time, "unknown unit `mim` for a time", Some("did you mean `min`?")),
            (
                "12 gal",
                Kind::Volume,
                "the unit `gal` has more than one meaning: write gal_us (3.785 L) or gal_imp (4.546 L)",
                None,
            ),
            ("12 kg", Kind::Temperature, "`kg` is a unit of a mass; expected one of a temperature", None),
            ("some", Kind::Mass, "`some` does not begin with a number", None),
            (
                "1,5 kg",
                Kind::Mass,
                "`1,5 kg` has a comma in its number: write a decimal point, and no thousands separator",
                None,
            ),
            (
                "12",
                Kind::Area,
                "there is no unit; expected one of an area",
                Some("write `m2`, `cm2`, `mm2`, `in2` or `ft2`"),
            ),
        ];
        let w = Wording::plain();
        for (written, kind, words, advice) in cases {
            let error = parse_quantity(written, kind).expect_err(written);
            assert_eq!((text(&w, &error).as_str(), hint(&w, &error).as_deref()), (words, advice), "{written}");
        }
    }
}
