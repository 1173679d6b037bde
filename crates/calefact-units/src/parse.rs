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

/// The spelling of the kind that looks most like the text, if any is near enough to be meant.
fn nearest(plain: &str, kind: Kind) -> Option<&'static str> {
    if plain.len() > LONGEST {
        return None;
    }
    let scored = entries(kind).iter().flat_map(spellings).map(|s| (strsim::jaro_winkler(&folded(s), plain), s));
    let best = scored.fold(None, |best: Option<(f64, &'static str)>, next| match best {
        Some(b) if b.0 >= next.0 => Some(b),
        _ => Some(next),
    });
    best.filter(|(score, _)| *score >= 0.7).map(|(_, spelling)| spelling)
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
