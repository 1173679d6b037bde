//! The comparisons a pipeline asks for, and those made when it asks for none.

use calefact_analysis::Quantity;
use calefact_analysis::settings::ComparisonRequest;
use calefact_data::TrialKind;
use calefact_data::register_columns::TRIAL_KINDS;
use calefact_data::toml_source::{Item, Table};
use std::collections::BTreeMap;

/// Reads every `[[comparison]]`. With none, stove, fuel and exchanger are compared, each adjusted for the other two.
pub(super) fn read(root: &Table<'_>) -> Vec<ComparisonRequest> {
    match root.item("comparison") {
        None => standard(),
        Some(list) => list.items().iter().filter_map(comparison).collect(),
    }
}

fn standard() -> Vec<ComparisonRequest> {
    let factors = ["stove", "fuel", "exchanger"];
    let others = |factor| factors.iter().filter(|f| **f != factor).map(ToString::to_string).collect();
    let adjusted =
        |factor| ComparisonRequest { adjust: others(factor), ..ComparisonRequest::new(factor, TrialKind::Burn) };
    factors.map(adjusted).into()
}

fn comparison(item: &Item<'_>) -> Option<ComparisonRequest> {
    let table = item.table()?;
    let kind = table.word("kind", &TRIAL_KINDS).unwrap_or(TrialKind::Burn);
    let mut request = ComparisonRequest::new(table.text("factor")?, kind);
    request.adjust = table.texts("adjust");
    request.covariates = table.texts("covariates");
    request.block = table.text("block").map(Into::into);
    request.only = levels(&table);
    let quantities: Vec<Quantity> = table.texts("quantities").iter().filter_map(|name| quantity(name)).collect();
    if !quantities.is_empty() {
        request.quantities = quantities;
    }
    request.equivalence_margin = table.number("equivalence_margin");
    request.planned = table.integer("planned").and_then(|n| n.try_into().ok());
    Some(request.with_main(table.text("main").and_then(quantity)))
}

fn levels(table: &Table<'_>) -> BTreeMap<String, String> {
    let entries = table.entries("only").into_iter();
    entries.filter_map(|(factor, level)| Some((factor, level.text()?.to_owned()))).collect()
}

fn quantity(name: &str) -> Option<Quantity> {
    Quantity::ALL.iter().copied().find(|q| q.name() == name)
}
