//! Limits of error as the instrument's sheet gives them.
//!
//! Sources of the classes: thermocouples type K, IEC 60584-1:2013 classes 1 to 3 and ASTM E230-12 special and standard
//! limits (greater of an absolute limit and a fraction of the Celsius reading, above 0 degC); platinum thermometers,
//! IEC 60751:2022 classes AA, A, B, C (sum of an absolute limit and a fraction).

use crate::apparatus::Tolerance;
use crate::fact::ToleranceProblem;
use crate::toml_source::{PLUS_MINUS, parse_width, words};
use calefact_units::Kind;

/// Classes and the limit each stands for; compared without regard to case. Absolute parts in K.
const CLASSES: [(&str, Tolerance); 9] = [
    ("class 1 type K", Tolerance::GreaterOf(1.5, 0.004)),
    ("class 2 type K", Tolerance::GreaterOf(2.5, 0.0075)),
    ("class 3 type K", Tolerance::GreaterOf(2.5, 0.015)),
    ("special limits type K", Tolerance::GreaterOf(1.1, 0.004)),
    ("standard limits type K", Tolerance::GreaterOf(2.2, 0.0075)),
    ("class AA Pt100", Tolerance::SumOf(0.1, 0.0017)),
    ("class A Pt100", Tolerance::SumOf(0.15, 0.002)),
    ("class B Pt100", Tolerance::SumOf(0.3, 0.005)),
    ("class C Pt100", Tolerance::SumOf(0.6, 0.01)),
];

/// Reads one tolerance for a column of a kind: `"0.5 degC"` or `"+- 0.5 degC"` (limit), `"0.75 % of reading"`,
/// `"1 K standard"` (one standard deviation), or a class such as `"class 2 type K"`, `"class B Pt100"`,
/// `"special limits type K"`.
///
/// # Errors
/// An unknown class, a class of thermometers for another kind of column, a width that cannot be read or is negative.
pub(super) fn parse_tolerance(text: &str, kind: Kind) -> Result<Tolerance, ToleranceProblem> {
    let folded = text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
    if folded.starts_with(|c: char| c.is_alphabetic()) {
        return class(&folded, kind);
    }
    let bare = text.trim();
    let bare = PLUS_MINUS.iter().find_map(|s| bare.strip_prefix(s)).unwrap_or(bare).trim();
    if let Some(part) = strip_word(bare, &["of reading", "of the reading", "rdg"]) {
        return width(part, Kind::Fraction).map(Tolerance::OfReading);
    }
    match strip_word(bare, &["(standard)", "standard", "1 sd"]) {
        Some(part) => width(part, kind).map(Tolerance::Standard),
        None => width(bare, kind).map(Tolerance::Absolute),
    }
}

fn class(folded: &str, kind: Kind) -> Result<Tolerance, ToleranceProblem> {
    let found = CLASSES.iter().find(|(name, _)| name.eq_ignore_ascii_case(folded)).map(|(_, t)| *t);
    match found {
        Some(tolerance) if kind == Kind::Temperature => Ok(tolerance),
        Some(_) => Err(ToleranceProblem::NotTemperature { kind }),
        None => Err(ToleranceProblem::UnknownClass { known: words(&CLASSES) }),
    }
}

fn width(text: &str, kind: Kind) -> Result<f64, ToleranceProblem> {
    let value = parse_width(text, kind).map_err(ToleranceProblem::Width)?;
    if value < 0.0 { Err(ToleranceProblem::Negative) } else { Ok(value) }
}

fn strip_word<'t>(text: &'t str, words: &[&str]) -> Option<&'t str> {
    words.iter().find_map(|w| text.strip_suffix(w)).map(str::trim_end)
}

#[cfg(test)]
mod tests {
    use super::{Tolerance, ToleranceProblem, parse_tolerance};
    use calefact_units::{Kind, UnitError};

    fn temperature(text: &str) -> Tolerance {
        parse_tolerance(text, Kind::Temperature).expect(text)
    }

    #[test]
    fn forms_of_a_sheet() {
        assert_eq!(temperature("0.5 degC"), Tolerance::Absolute(0.5));
        assert_eq!(temperature("+- 0.5 K"), Tolerance::Absolute(0.5));
        assert_eq!(temperature("0.75 % of reading"), Tolerance::OfReading(0.0075));
        assert_eq!(temperature("+- 1 K standard"), Tolerance::Standard(1.0));
        assert_eq!(parse_tolerance("0.1 kg", Kind::Mass), Ok(Tolerance::Absolute(0.1)));
        assert_eq!(parse_tolerance("2 %", Kind::Fraction), Ok(Tolerance::Absolute(0.02)));
        let Tolerance::Absolute(kelvin) = temperature("1.8 degF") else { panic!("an absolute limit") };
        assert!((kelvin - 1.0).abs() < 1e-12);
    }

    /// Limits at stated temperatures: type K class 2 at 400 degC is 3.0 K, class 1 at 600 degC 2.4 K (IEC 60584-1);
    /// Pt100 class A and B at 60 degC 0.270 and 0.600 K (IEC 60751).
    #[test]
    fn classes_give_the_limits_of_the_standards() {
        let limit = |text: &str, t: f64| match temperature(text) {
            Tolerance::GreaterOf(a, f) => a.max(f * t),
            Tolerance::SumOf(a, f) => a + f * t,
            other => panic!("{other:?} is no class"),
        };
        let cases =
            [("class 2 type K", 400.0, 3.0), ("Class 1 type K", 600.0, 2.4), ("special limits type K", 400.0, 1.6)];
        let platinum = [("class A Pt100", 60.0, 0.270), ("class B Pt100", 60.0, 0.600), ("class B Pt100", 100.0, 0.8)];
        for (text, t, want) in cases.into_iter().chain(platinum) {
            assert!((limit(text, t) - want).abs() < 1e-9, "{text} at {t}");
        }
    }

    #[test]
    fn problems_name_their_reason() {
        let problem = |text, kind| parse_tolerance(text, kind).expect_err("a problem");
        assert!(matches!(problem("class 2 type J", Kind::Temperature), ToleranceProblem::UnknownClass { .. }));
        assert_eq!(problem("class 2 type K", Kind::Mass), ToleranceProblem::NotTemperature { kind: Kind::Mass });
        assert!(matches!(problem("0.5", Kind::Temperature), ToleranceProblem::Width(UnitError::Unknown { .. })));
        assert!(matches!(problem("0.5 kg", Kind::Temperature), ToleranceProblem::Width(UnitError::WrongKind { .. })));
        assert_eq!(problem("-1 K", Kind::Temperature), ToleranceProblem::Negative);
    }
}
