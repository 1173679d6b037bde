//! From what a person writes to a unit.

use crate::spelling::{folded, key};
use crate::table::{ALL_KINDS, AMBIGUOUS, Entry, entries};
use crate::{Kind, Unit, UnitError};

impl Unit {
    /// The unit a person wrote, for a quantity of this kind.
    ///
    /// A spelling is tried as typed first, then without regard to case where that leaves one meaning: `KG` is `kg`,
    /// but `mw` could be `mW` or `MW` and is refused.
    ///
    /// # Errors
    /// [`UnitError::Ambiguous`] for a spelling with two meanings (`gal`, `gpm`, `ton`), [`UnitError::WrongKind`] for a
    /// unit of another kind, [`UnitError::Unknown`] otherwise, with the nearest spelling of the kind wanted.
    pub fn parse(text: &str, kind: Kind) -> Result<Self, UnitError> {
        if let Some(unit) = exact(text, kind) {
            return Ok(unit);
        }
        if let Some((found, choices)) = ambiguous(text) {
            return Err(if found == kind {
                UnitError::Ambiguous { text: text.into(), choices }
            } else {
                UnitError::WrongKind { text: text.into(), found, kind }
            });
        }
        if let Some(unit) = any_case(text, kind) {
            return Ok(unit);
        }
        Err(match kind_of(text) {
            Some(found) => UnitError::WrongKind { text: text.into(), found, kind },
            None => UnitError::Unknown { text: text.into(), kind, nearest: nearest(text, kind) },
        })
    }
}

/// Canonical symbols of every unit of a kind, the SI unit first; for help texts.
pub fn symbols(kind: Kind) -> impl Iterator<Item = &'static str> {
    entries(kind).iter().map(|e| e.unit.symbol)
}

fn exact(text: &str, kind: Kind) -> Option<Unit> {
    let wanted = key(text);
    find(kind, |s| key(s) == wanted)
}

fn any_case(text: &str, kind: Kind) -> Option<Unit> {
    let wanted = folded(text);
    find(kind, |s| folded(s) == wanted)
}

fn find(kind: Kind, same: impl Fn(&str) -> bool) -> Option<Unit> {
    entries(kind).iter().find(|e| spellings(e).any(&same)).map(|e| e.unit)
}

fn spellings(entry: &'static Entry) -> impl Iterator<Item = &'static str> {
    std::iter::once(entry.unit.symbol).chain(entry.spellings.iter().copied())
}

fn ambiguous(text: &str) -> Option<(Kind, &'static str)> {
    let wanted = folded(text);
    AMBIGUOUS.iter().find(|a| a.spellings.iter().any(|s| folded(s) == wanted)).map(|a| (a.kind, a.choices))
}

/// Another kind that knows the spelling, as typed if possible.
fn kind_of(text: &str) -> Option<Kind> {
    let has = |test: fn(&str, Kind) -> Option<Unit>| ALL_KINDS.iter().copied().find(|k| test(text, *k).is_some());
    has(exact).or_else(|| has(any_case))
}

/// The spelling of the kind that looks most like the text, if any is near enough to be meant.
fn nearest(text: &str, kind: Kind) -> Option<&'static str> {
    let wanted = folded(text);
    let scored = entries(kind).iter().flat_map(spellings).map(|s| (strsim::jaro_winkler(&folded(s), &wanted), s));
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
                    assert!(!clash || ambiguous(spelling).is_some(), "{spelling}: {other} or {}", entry.unit.symbol);
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
