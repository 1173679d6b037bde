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
        UnitError::Parts { text } => format!(
            "the parts of {} do not fit together: write the larger unit first, and less than one of it in the smaller, as in {}",
            w.quoted(text),
            w.quoted("9 lb 6 oz")
        ),
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

/// Why a quantity of the command line cannot be read, and what to write.
pub fn quantity_error(error: &UnitError, written: &str) -> String {
    let w = Wording::plain();
    let hint = quantity_hint(&w, error).map_or_else(String::new, |hint| format!("; {hint}"));
    quantity(&w, error, written) + &hint
}

/// Why a quantity as written cannot be read.
pub(super) fn quantity(w: &Wording<'_>, error: &UnitError, written: &str) -> String {
    match missing(error) {
        Some(kind) => format!("{} has no unit; expected {}", w.quoted(written), kind.words()),
        None => text(w, error),
    }
}

/// What to do about it, where the text does not say it.
pub(super) fn quantity_hint(w: &Wording<'_>, error: &UnitError) -> Option<String> {
    match missing(error) {
        Some(kind) => Some(format!("write the unit after the number, as in \"{}\"", example(kind))),
        None => hint(w, error),
    }
}

/// The kind of a quantity written without a unit, if that is the error.
fn missing(error: &UnitError) -> Option<Kind> {
    match error {
        UnitError::Unknown { text, kind, .. } if text.trim().is_empty() => Some(*kind),
        _ => None,
    }
}

/// How a quantity of a kind is written.
pub(super) const fn example(kind: Kind) -> &'static str {
    match kind {
        Kind::Temperature => "60 degC",
        Kind::TemperatureDifference => "0.5 K",
        Kind::Mass => "3.2 kg",
        Kind::Volume => "160 L",
        Kind::Length => "15 mm",
        Kind::Area => "0.4 m2",
        Kind::Time => "40 min",
        Kind::Power => "6 kW",
        Kind::Energy => "13.5 MJ",
        Kind::Pressure => "1 bar",
        Kind::MassFlow => "0.05 kg/s",
        Kind::VolumeFlow => "3.4 L/min",
        Kind::Fraction => "20 %",
        Kind::SpecificEnergy => "19.1 MJ/kg",
        Kind::HeatCapacity => "12 kJ/K",
        Kind::SpecificHeat => "0.49 kJ/(kg K)",
        Kind::Conductance => "3 W/K",
    }
}

#[cfg(test)]
mod tests {
    use super::{example, hint, quantity, quantity_hint, text};
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
                "6 oz 9 lb",
                Kind::Mass,
                "the parts of `6 oz 9 lb` do not fit together: write the larger unit first, and less than one of it in the smaller, as \
                 in `9 lb 6 oz`",
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

    #[test]
    fn a_quantity_without_unit_is_shown() {
        let w = Wording::plain();
        let error = parse_quantity("160", Kind::Volume).expect_err("an error");
        assert_eq!(quantity(&w, &error, "160"), "`160` has no unit; expected a volume");
        let hint = quantity_hint(&w, &error).expect("a hint");
        assert_eq!(hint, "write the unit after the number, as in \"160 L\"");
        for kind in [Kind::Temperature, Kind::Mass, Kind::Volume, Kind::SpecificHeat, Kind::Conductance, Kind::MassFlow]
        {
            assert!(parse_quantity(example(kind), kind).is_ok(), "{kind:?}");
        }
    }
}
