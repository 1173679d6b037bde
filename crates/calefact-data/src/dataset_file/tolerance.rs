//! Limits of error as the instrument's sheet gives them.
//!
//! Sources of the classes: thermocouples type K, IEC 60584-1:2013 classes 1 to 3 and ASTM E230-12 special and standard
//! limits (greater of an absolute limit and a fraction of the Celsius reading, above 0 degC); platinum thermometers,
//! IEC 60751:2022 classes AA, A, B, C (sum of an absolute limit and a fraction).

use super::stated::parse_spread;
use crate::apparatus::Tolerance;
use crate::nearest;
use crate::text::units;
use calefact_units::{Kind, UnitError};

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

/// Why a tolerance could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ToleranceError {
    /// A class that is not in the table, with a hint.
    Class(String, String),
    /// A class of thermometers for a column that holds no temperature.
    NotTemperature(String),
    /// A width that could not be read.
    Width(String, UnitError),
    /// A width below zero.
    Negative(String),
}

impl std::fmt::Display for ToleranceError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Class(text, _) => write!(f, "unknown class of instruments `{text}`"),
            Self::NotTemperature(text) => {
                write!(f, "`{text}` is a class of thermometers, but the column is no temperature")
            }
            Self::Width(text, error) if units::is_missing(error) => write!(f, "tolerance `{text}` has no unit"),
            Self::Width(text, error) => write!(f, "tolerance `{text}`: {error}"),
            Self::Negative(text) => write!(f, "tolerance `{text}` is negative"),
        }
    }
}

impl std::error::Error for ToleranceError {}

impl ToleranceError {
    /// What the person can do.
    pub fn hint(&self) -> &str {
        match self {
            Self::Class(_, hint) => hint,
            _ => "write it as \"0.5 degC\", \"0.75 % of reading\", \"1 K standard\" or \"class 2 type K\"",
        }
    }
}

/// Reads one tolerance for a column of a kind: `"0.5 degC"` or `"+- 0.5 degC"` (limit), `"0.75 % of reading"`,
/// `"1 K standard"` (one standard deviation), or a class such as `"class 2 type K"`, `"class B Pt100"`,
/// `"special limits type K"`.
///
/// # Errors
/// An unknown class, a class of thermometers for another kind of column, a width that cannot be read or is negative.
pub fn parse_tolerance(text: &str, kind: Kind) -> Result<Tolerance, ToleranceError> {
    let folded = text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
    if folded.starts_with(|c: char| c.is_alphabetic()) {
        return class(text, &folded, kind);
    }
    let bare = text.trim();
    let bare = ["+-", "+/-", "\u{b1}"].iter().find_map(|s| bare.strip_prefix(s)).unwrap_or(bare).trim();
    if let Some(part) = strip_word(bare, &["of reading", "of the reading", "rdg"]) {
        return width(text, part, Kind::Fraction).map(Tolerance::OfReading);
    }
    match strip_word(bare, &["(standard)", "standard", "1 sd"]) {
        Some(part) => width(text, part, kind).map(Tolerance::Standard),
        None => width(text, bare, kind).map(Tolerance::Absolute),
    }
}

fn class(text: &str, folded: &str, kind: Kind) -> Result<Tolerance, ToleranceError> {
    let found = CLASSES.iter().find(|(name, _)| name.eq_ignore_ascii_case(folded)).map(|(_, t)| *t);
    let hint = || nearest::hint(folded, CLASSES.iter().map(|(n, _)| *n));
    match found {
        Some(tolerance) if kind == Kind::Temperature => Ok(tolerance),
        Some(_) => Err(ToleranceError::NotTemperature(text.into())),
        None => Err(ToleranceError::Class(text.into(), hint())),
    }
}

fn width(whole: &str, part: &str, kind: Kind) -> Result<f64, ToleranceError> {
    let value = parse_spread(part, kind).map_err(|e| ToleranceError::Width(whole.into(), e))?;
    if value < 0.0 { Err(ToleranceError::Negative(whole.into())) } else { Ok(value) }
}

fn strip_word<'t>(text: &'t str, words: &[&str]) -> Option<&'t str> {
    words.iter().find_map(|w| text.strip_suffix(w)).map(str::trim_end)
}

#[cfg(test)]
mod tests {
    use super::{Tolerance, parse_tolerance};
    use calefact_units::Kind;

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
    fn mistakes_are_named() {
        let error = |text, kind| parse_tolerance(text, kind).map_err(|e| format!("{e}; {}", e.hint()));
        insta::assert_debug_snapshot!(error("class 2 type J", Kind::Temperature), @r#"
        Err(
            "unknown class of instruments `class 2 type J`; did you mean `class 2 type K`?",
        )
        "#);
        insta::assert_debug_snapshot!(error("0.5", Kind::Temperature), @r#"
        Err(
            "tolerance `0.5` has no unit; write it as \"0.5 degC\", \"0.75 % of reading\", \"1 K standard\" or \"class 2 type K\"",
        )
        "#);
        insta::assert_debug_snapshot!(error("class 2 type K", Kind::Mass), @r#"
        Err(
            "`class 2 type K` is a class of thermometers, but the column is no temperature; write it as \"0.5 degC\", \"0.75 % of reading\", \"1 K standard\" or \"class 2 type K\"",
        )
        "#);
        insta::assert_debug_snapshot!(error("0.5 kg", Kind::Temperature), @r#"
        Err(
            "tolerance `0.5 kg`: `kg` is a unit of another kind (a mass), but a temperature is wanted here; write it as \"0.5 degC\", \"0.75 % of reading\", \"1 K standard\" or \"class 2 type K\"",
        )
        "#);
    }
}
