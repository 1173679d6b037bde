//! `[fuels.ID]`.

use super::limits::{self, Limits};
use super::stated::stated;
use crate::apparatus::{Composition, Fuel, FuelClass};
use crate::toml_source::Table;
use calefact_units::{Kind, parse_quantity};

/// Keys: `name`; `class` (`coniferous`, `broadleaf`); `net_calorific_value` of dry matter and
/// `char_calorific_value`, each with `..._uncertainty` (one standard deviation); `composition` of dry matter as mass
/// fractions `c`, `h`, `o` (required), `n`, `s`, `ash` (zero if absent); `price` per kg as bought; `currency`.
pub(super) fn fuel(table: &Table<'_>) -> Fuel {
    let classes = [("coniferous", FuelClass::Coniferous), ("broadleaf", FuelClass::Broadleaf)];
    let energy = Kind::SpecificEnergy;
    let ncv = stated(table, "net_calorific_value", "net_calorific_value_uncertainty", energy, limits::CALORIFIC);
    let char_value =
        stated(table, "char_calorific_value", "char_calorific_value_uncertainty", energy, limits::CALORIFIC);
    let fuel = Fuel {
        name: table.required_string("name").unwrap_or_default(),
        class: table.optional("class").and_then(|i| i.word(&classes)),
        net_calorific_value_dry: ncv,
        char_calorific_value: char_value,
        composition: table.table("composition").and_then(|t| composition(&t)),
        price_per_kg: table.optional("price").and_then(|i| Limits::NotNegative.number(&i)),
        currency: table.string("currency"),
    };
    if fuel.price_per_kg.is_some() && fuel.currency.is_none() {
        table.error("missing-key", &format!("[{}] gives a price but no `currency`", table.path()), "add `currency`");
    }
    fuel
}

fn composition(table: &Table<'_>) -> Option<Composition> {
    let part = |key| {
        let item = table.optional(key)?;
        let value = match item.as_str() {
            Some(text) => parse_quantity(text, Kind::Fraction).map_err(|e| item.unit_error(&e)).ok(),
            None => item.number(),
        };
        Limits::NotNegative.keep(&item, value?)
    };
    let missing = ["c", "h", "o"].into_iter().filter(|k| table.required(k).is_none()).count();
    let get = |key| part(key).unwrap_or(0.0);
    let found = Composition { c: get("c"), h: get("h"), o: get("o"), n: get("n"), s: get("s"), ash: get("ash") };
    table.finish();
    let sum = found.c + found.h + found.o + found.n + found.s + found.ash;
    // Published analyses close to about a percent; more is a slip or a missing part.
    if missing == 0 && (sum - 1.0).abs() > 0.02 {
        let message = format!("the parts of `{}` add up to {sum:.3} instead of 1", table.path());
        table.error("bad-value", &message, "give mass fractions of dry matter (or \"50 %\"), ash included");
        return None;
    }
    (missing == 0).then_some(found)
}
