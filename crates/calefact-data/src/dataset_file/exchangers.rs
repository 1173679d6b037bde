//! `[exchangers.ID]`.

use crate::apparatus::{Arrangement, Exchanger};
use crate::toml_source::Table;

/// Words for the flow arrangements.
pub(super) const ARRANGEMENTS: [(&str, Arrangement); 5] = [
    ("counter", Arrangement::Counter),
    ("parallel", Arrangement::Parallel),
    ("cross-gas-mixed", Arrangement::CrossGasMixed),
    ("cross-water-mixed", Arrangement::CrossWaterMixed),
    ("cross-unmixed", Arrangement::CrossUnmixed),
];

/// Reads an exchanger.
pub(super) fn exchanger(table: &Table<'_>) -> Exchanger {
    Exchanger {
        name: table.string("name"),
        arrangement: table.word("arrangement", &ARRANGEMENTS),
        build: table.table("build").map(|t| t.numbers()).unwrap_or_default(),
        insulation: table.text("insulation").map(Into::into),
    }
}
