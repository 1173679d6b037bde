//! The comparisons a pipeline asks for, and those made when it asks for none.

use calefact_analysis::Quantity;
use calefact_analysis::settings::ComparisonRequest;
use calefact_data::TrialKind;
use calefact_data::toml_source::{Item, Table};
use calefact_units::Kind;
use std::collections::BTreeMap;

const KINDS: [(&str, TrialKind); 3] = [
    ("burn", TrialKind::Burn),
    ("standing-loss", TrialKind::StandingLoss),
    ("reference-heater", TrialKind::ReferenceHeater),
];

/// Reads every `[[comparison]]`. With none, stove, fuel and exchanger are compared, each adjusted for the other two.
pub(super) fn read(root: &Table<'_>) -> Vec<ComparisonRequest> {
    match root.optional("comparison") {
        None => standard(),
        Some(list) => list.array().unwrap_or_default().iter().filter_map(one).collect(),
    }
}

fn standard() -> Vec<ComparisonRequest> {
    let factors = ["stove", "fuel", "exchanger"];
    let others = |factor| factors.iter().filter(|f| **f != factor).map(ToString::to_string).collect();
    let adjusted =
        |factor| ComparisonRequest { adjust: others(factor), ..ComparisonRequest::new(factor, TrialKind::Burn) };
    factors.map(adjusted).into()
}

fn one(item: &Item<'_>) -> Option<ComparisonRequest> {
    let table = item.table()?;
    let factor = table.required_string("factor");
    let kind = table.optional("kind").and_then(|k| k.word(&KINDS)).unwrap_or(TrialKind::Burn);
    let mut request = ComparisonRequest::new(factor.clone().unwrap_or_default(), kind);
    request.adjust = texts(&table, "adjust");
    request.covariates = texts(&table, "covariates");
    request.block = table.string("block");
    request.only = levels(&table);
    let quantities = table.array("quantities");
    if !quantities.is_empty() {
        request.quantities = quantities.iter().filter_map(quantity).collect();
    }
    request.equivalence_margin = margin(&table);
    table.finish();
    factor.map(|_| request)
}

fn texts(table: &Table<'_>, key: &'static str) -> Vec<String> {
    table.array(key).iter().filter_map(Item::string).collect()
}

fn levels(table: &Table<'_>) -> BTreeMap<String, String> {
    let Some(only) = table.table("only") else { return BTreeMap::new() };
    only.entries().into_iter().filter_map(|(factor, level)| Some((factor, level.string()?))).collect()
}

fn quantity(item: &Item<'_>) -> Option<Quantity> {
    let words: Vec<(&str, Quantity)> = Quantity::ALL.iter().map(|q| (q.name(), *q)).collect();
    item.word(&words)
}

fn margin(table: &Table<'_>) -> Option<f64> {
    let item = table.optional("equivalence_margin")?;
    let margin = item.quantity(Kind::Fraction)?;
    if !(margin > 0.0 && margin < 1.0) {
        item.error("bad-value", "`equivalence_margin` is out of range", "write it as a share, such as \"5 %\"");
    }
    Some(margin)
}
