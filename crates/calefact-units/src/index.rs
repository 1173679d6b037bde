//! The table turned round: from a spelling to its unit. Built once, since a batch reads units in every log's header.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use crate::spelling::{folded, key};
use crate::table::{ALL_KINDS, AMBIGUOUS, Entry, entries};
use crate::{Kind, Unit};

type Units = BTreeMap<String, Unit>;

/// Spellings by kind, as typed and without case, and those with two meanings.
struct Index {
    exact: BTreeMap<Kind, Units>,
    any_case: BTreeMap<Kind, Units>,
    ambiguous: BTreeMap<String, (Kind, &'static str)>,
}

static INDEX: LazyLock<Index> = LazyLock::new(|| Index {
    exact: ALL_KINDS.iter().map(|k| (*k, units(*k, key))).collect(),
    any_case: ALL_KINDS.iter().map(|k| (*k, units(*k, folded))).collect(),
    ambiguous: AMBIGUOUS.iter().flat_map(|a| a.spellings.iter().map(|s| (folded(s), (a.kind, a.choices)))).collect(),
});

/// Spellings of a kind in one form; where two units share one, the first of the table has it.
fn units(kind: Kind, form: fn(&str) -> String) -> Units {
    let mut map = Units::new();
    for entry in entries(kind) {
        for spelling in spellings(entry) {
            map.entry(form(spelling)).or_insert(entry.unit);
        }
    }
    map
}

/// Every way an entry is written, its symbol first.
pub(crate) fn spellings(entry: &'static Entry) -> impl Iterator<Item = &'static str> {
    std::iter::once(entry.unit.symbol).chain(entry.spellings.iter().copied())
}

/// The unit of a kind with this [`key`].
pub(crate) fn exact(wanted: &str, kind: Kind) -> Option<Unit> {
    INDEX.exact.get(&kind)?.get(wanted).copied()
}

/// The unit of a kind with this [`folded`] spelling.
pub(crate) fn any_case(wanted: &str, kind: Kind) -> Option<Unit> {
    INDEX.any_case.get(&kind)?.get(wanted).copied()
}

/// Kind and choices of a [`folded`] spelling with two meanings.
pub(crate) fn ambiguous(wanted: &str) -> Option<(Kind, &'static str)> {
    INDEX.ambiguous.get(wanted).copied()
}
