//! `[fuels.ID]`.

use crate::apparatus::{Composition, Fuel, FuelClass};
use crate::fact::DatasetFact;
use crate::toml_source::Table;

/// Words for the classes of wood.
pub(super) const CLASSES: [(&str, FuelClass); 4] = [
    ("coniferous", FuelClass::Coniferous),
    ("broadleaf", FuelClass::Broadleaf),
    ("softwood", FuelClass::Coniferous),
    ("hardwood", FuelClass::Broadleaf),
];

/// Reads a fuel.
pub(super) fn fuel(table: &Table<'_>) -> Fuel {
    let fuel = Fuel {
        name: table.string("name"),
        class: table.word("class", &CLASSES),
        net_calorific_value_dry: table.stated("net_calorific_value"),
        char_calorific_value: table.stated("char_calorific_value"),
        composition: table.table("composition").and_then(|t| composition(&t)),
        price_per_kg: table.number("price"),
        currency: table.text("currency").map(Into::into),
    };
    if fuel.price_per_kg.is_some() && fuel.currency.is_none() {
        table.report(DatasetFact::NoCurrency { table: table.path().into() });
    }
    fuel
}

fn composition(table: &Table<'_>) -> Option<Composition> {
    let optional = |key| if table.item(key).is_some() { table.number(key) } else { Some(0.0) };
    let found = Composition {
        c: table.number("c")?,
        h: table.number("h")?,
        o: table.number("o")?,
        n: optional("n")?,
        s: optional("s")?,
        ash: optional("ash")?,
    };
    let sum = found.c + found.h + found.o + found.n + found.s + found.ash;
    // Published analyses close to about a percent; more is a slip or a missing part.
    if (sum - 1.0).abs() > 0.02 {
        table.report(DatasetFact::Composition { table: table.path().into(), sum });
        return None;
    }
    Some(found)
}
