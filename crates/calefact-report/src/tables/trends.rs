//! `trends`: slopes along numeric factors and covariates.

use crate::columns::Table;
use calefact_analysis::result::Analysis;

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let rows = || analysis.comparisons.iter().flat_map(|c| c.trends.iter().map(move |t| (c, t)));
    let table = Table::new("trends")
        .text("quantity", "quantity name", rows().map(|r| r.1.quantity.name()))
        .text("factor", "column or condition it follows", rows().map(|r| r.1.factor.as_str()))
        .text("per", "what one step of it is", rows().map(|r| r.1.per.as_str()))
        .count("n", "trials behind it", rows().map(|r| Some(r.1.n as u64)));
    table
        .estimates(rows().map(|r| &r.1.estimate))
        .number("p_value", "1", "p-value of no trend", rows().map(|r| r.1.p_value))
        .number("dof", "1", "effective degrees of freedom", rows().map(|r| r.1.estimate.dof))
        .text("method", "how slope and uncertainty were obtained", rows().map(|r| r.1.estimate.method.as_ref()))
        .text("comparison", "comparison the trend belongs to", rows().map(|r| r.0.title.as_str()))
        .text("sentence", "what can be said, in words", rows().map(|r| r.1.sentence.as_str()))
}
