//! From what a person writes to a unit.

use crate::index::{ambiguous, any_case, exact, spellings};
use crate::spelling::{folded, key};
use crate::table::{ALL_KINDS, entries};
use crate::{Kind, Unit, UnitError};

impl Unit {
    /// The unit a person wrote, for a quantity of this kind.
    ///
    /// A spelling is tried as typed first, then without regard to case where that leaves one meaning: `KG` is `kg`,
    /// but `mw` could be `mW` or `MW` and is refused.
    ///
    /// ```
    /// use calefact_units::{Kind, Unit};
    ///
    /// let fahrenheit = Unit::parse("°F", Kind::Temperature)?;
    /// assert!((fahrenheit.to_si(212.0) - 100.0).abs() < 1e-9);
    /// assert_eq!(Unit::parse("US gal", Kind::Volume)?.symbol, "gal_us");
    /// # Ok::<(), calefact_units::UnitError>(())
    /// ```
    ///
    /// # Errors
    /// [`UnitError::Ambiguous`] for a spelling with two meanings (`gal`, `gpm`, `ton`), [`UnitError::WrongKind`] for a
    /// unit of another kind, [`UnitError::Unknown`] otherwise, with the nearest spelling of the kind wanted.
    pub fn parse(text: &str, kind: Kind) -> Result<Self, UnitError> {
        let typed = key(text);
        if let Some(unit) = exact(&typed, kind) {
            return Ok(unit);
        }
        let plain = folded(text);
        let ambiguous = ambiguous(&plain);
        if let Some((_, choices)) = ambiguous.filter(|(found, _)| *found == kind) {
            return Err(UnitError::Ambiguous { text: text.into(), choices });
        }
        any_case(&plain, kind).ok_or_else(|| match kind_of(&typed, &plain).or(ambiguous.map(|(found, _)| found)) {
            Some(found) => UnitError::WrongKind { text: text.into(), found, kind },
            None => UnitError::Unknown { text: text.into(), kind, nearest: nearest(&plain, kind) },
        })
    }
}

/// Canonical symbols of every unit of a kind, the SI unit first; for help texts.
pub fn symbols(kind: Kind) -> impl Iterator<Item = &'static str> {
    entries(kind).iter().map(|e| e.unit.symbol)
}

/// Another kind that knows the spelling, as typed if possible.
fn kind_of(typed: &str, plain: &str) -> Option<Kind> {
    let mut kinds = ALL_KINDS.into_iter();
    let as_typed = kinds.clone().find(|k| exact(typed, *k).is_some());
    as_typed.or_else(|| kinds.find(|k| any_case(plain, *k).is_some()))
}

/// A longer text is no slip of a spelling, and comparing takes the product of both lengths.
const LONGEST: usize = 40;

/// The spelling of the kind that looks most like the text, if it is a slip of it. People measure wood in bags and water in buckets:
/// a word that is only somewhat like a unit is none.
fn nearest(plain: &str, kind: Kind) -> Option<&'static str> {
    if plain.len() > LONGEST {
        return None;
    }
    let slips = entries(kind).iter().flat_map(spellings).filter(|s| is_slip(plain, &folded(s), kind));
    let scored = slips.map(|s| (strsim::jaro_winkler(&folded(s), plain), s));
    let best = scored.fold(None, |best: Option<(f64, &'static str)>, next| match best {
        Some(b) if b.0 >= next.0 => Some(b),
        _ => Some(next),
    });
    best.map(|(_, spelling)| spelling)
}

/// Whether two spellings are so near that one was meant: one letter is wrong, of long ones two. Of short names of amounts the one
/// must begin the other: a tin is no ton.
fn is_slip(plain: &str, known: &str, kind: Kind) -> bool {
    let letters = plain.chars().count().max(known.chars().count());
    if letters < 3 || letters == 3 && matches!(kind, Kind::Mass | Kind::Volume) {
        return plain.starts_with(char::is_alphanumeric) && (plain.starts_with(known) || known.starts_with(plain));
    }
    strsim::osa_distance(plain, known) <= if letters < 6 { 1 } else { 2 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    /// Dropping case may not silently choose between two units: each such clash must stand in the ambiguous list.
    #[test]
    fn no_spelling_means_two_units_of_one_kind() {
        for kind in ALL_KINDS {
            let mut seen: BTreeMap<String, &str> = BTreeMap::new();
            for entry in entries(kind) {
                for spelling in spellings(entry) {
                    let other = seen.entry(folded(spelling)).or_insert(entry.unit.symbol);
                    let clash = *other != entry.unit.symbol;
                    assert!(
                        !clash || ambiguous(&folded(spelling)).is_some(),
                        "{spelling}: {other} or {}",
                        entry.unit.symbol
                    );
                }
            }
        }
    }

    #[test]
    fn a_slip_is_told_and_a_word_of_the_trade_is_no_unit() {
        let nearest = |text, kind| match Unit::parse(text, kind) {
            Err(UnitError::Unknown { nearest, .. }) => nearest,
            found => panic!("{text}: {found:?}"),
        };
        for (slip, kind, unit) in [
            ("kgx", Kind::Mass, "kg"),
            ("kilogarm", Kind::Mass, "kg"),
            ("litrs", Kind::Volume, "L"),
            ("farenheit", Kind::Temperature, "degF"),
        ] {
            let found = nearest(slip, kind).and_then(|s| Unit::parse(s, kind).ok()).map(|u| u.symbol);
            assert_eq!(found, Some(unit), "{slip}");
        }
        for word in ["loads", "load", "logs", "sticks", "bags", "bundle", "st\u{e8}re", "-20"] {
            assert_eq!(nearest(word, Kind::Mass), None, "{word}");
        }
        for word in ["buckets", "Eimer", "wheelbarrow", "tub"] {
            assert_eq!(nearest(word, Kind::Volume), None, "{word}");
        }
    }

    #[test]
    fn every_entry_is_filed_under_its_kind_with_the_si_unit_first() {
        for kind in ALL_KINDS {
            assert_eq!(symbols(kind).next(), Some(kind.si_symbol()));
            for entry in entries(kind) {
                assert_eq!(entry.unit.kind, kind);
                assert!(entry.unit.offset == 0.0 || kind == Kind::Temperature);
                for spelling in spellings(entry) {
                    assert_eq!(Unit::parse(spelling, kind).as_ref(), Ok(&entry.unit), "{spelling}");
                }
            }
        }
    }
}
