//! `trends`: slopes along numeric factors and covariates.

use crate::columns::Table;
use crate::words::trend::{step, trend};
use crate::words::{Typography, Units, Wording, comparison_title, method};
use calefact_analysis::result::Analysis;

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let rows = || analysis.comparisons.iter().flat_map(|c| c.trends.iter().map(move |t| (c, t)));
    let w = Wording::of_analysis(analysis, Units::Metric, Typography::Plain);
    let units = rows().map(|r| format!("{} {}", r.1.estimate.unit, step(&w, r.1).per));
    let table = Table::new("trends")
        .text("quantity", "quantity name", rows().map(|r| r.1.quantity.name()))
        .text("factor", "column or condition it follows", rows().map(|r| r.1.factor.as_str()))
        .text("per", "what one step of it is", rows().map(|r| step(&w, r.1).per))
        .count("n", "trials behind it", rows().map(|r| Some(r.1.n as u64)));
    table
        .estimates_in(rows().map(|r| &r.1.estimate), units)
        .number("p_value", "1", "p-value of no trend", rows().map(|r| r.1.p_value))
        .number("p_adjusted", "1", "p-value adjusted for all verdicts of the page", rows().map(|r| r.1.p_adjusted))
        .number("dof", "1", "effective degrees of freedom", rows().map(|r| r.1.estimate.dof))
        .text("method", "how slope and uncertainty were obtained", rows().map(|_| method::SLOPE))
        .text("comparison", "comparison the trend belongs to", rows().map(|r| comparison_title(&Wording::plain(), r.0)))
        .text(
            "confounded_with",
            "columns that change together with the number, separated by blanks",
            rows().map(|r| r.1.confounded.join(" ")),
        )
        .text("sentence", "what can be said, in words", rows().map(|r| trend(&w, r.0, r.1)))
}
