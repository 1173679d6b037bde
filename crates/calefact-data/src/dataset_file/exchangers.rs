//! `[exchangers.ID]`.

use super::limits::Limits;
use crate::apparatus::{Arrangement, Exchanger};
use crate::toml_source::{Item, Table};
use calefact_units::Kind;
use std::collections::BTreeMap;

const ARRANGEMENTS: [(&str, Arrangement); 5] = [
    ("counter", Arrangement::Counter),
    ("parallel", Arrangement::Parallel),
    ("cross-gas-mixed", Arrangement::CrossGasMixed),
    ("cross-water-mixed", Arrangement::CrossWaterMixed),
    ("cross-unmixed", Arrangement::CrossUnmixed),
];

/// Keys: `name`; `arrangement` (`counter`, `parallel`, `cross-gas-mixed`, `cross-water-mixed`, `cross-unmixed`);
/// `build`, a table of lengths (`tube_outside = "15 mm"`) and plain counts (`passes = 2`); `insulation` in words.
pub(super) fn exchanger(table: &Table<'_>) -> Exchanger {
    Exchanger {
        name: table.required_string("name").unwrap_or_default(),
        arrangement: table.optional("arrangement").and_then(|i| i.word(&ARRANGEMENTS)),
        build: table.table("build").map(|t| build(&t)).unwrap_or_default(),
        insulation: table.string("insulation"),
    }
}

fn build(table: &Table<'_>) -> BTreeMap<String, f64> {
    let one = |(name, item): (String, Item<'_>)| {
        let value = if item.as_str().is_some() { item.quantity(Kind::Length) } else { count(&name, &item) };
        Some((name, Limits::NotNegative.keep(&item, value?)?))
    };
    table.entries().into_iter().filter_map(one).collect()
}

/// A plain number is a count; a length without a unit would pass for one, so the names of lengths are refused.
fn count(name: &str, item: &Item<'_>) -> Option<f64> {
    const LENGTHS: [&str; 6] = ["tube_outside", "tube_inside", "length", "coil_diameter", "pitch", "housing_gap"];
    if LENGTHS.contains(&name) { item.quantity(Kind::Length) } else { item.number() }
}
