//! `budget`: what share of the variance each source contributes.

use crate::columns::Table;
use crate::words::source::source;
use crate::words::{Typography, Units, Wording};
use calefact_analysis::result::{Analysis, BudgetOwner};
use std::borrow::Cow;

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let rows = || analysis.budget.iter();
    let wording = Wording::of_analysis(analysis, Units::Metric, Typography::Plain);
    Table::new("budget")
        .text("quantity", "quantity name", rows().map(|r| r.quantity.name()))
        .text("of", "trial, group or difference (a - b) it is the budget of", rows().map(|r| owner(&r.owner)))
        .text("source", "source of error in words", rows().map(move |r| source(&wording, &r.source)))
        .flag("shared", "whether several trials share the source", rows().map(|r| r.shared))
        .number(
            "contribution",
            "unit of the quantity",
            "standard uncertainty contributed",
            rows().map(|r| r.contribution),
        )
        .number("share", "1", "share of the variance", rows().map(|r| r.share))
}

/// The id of a trial, or factor and level of a group as the files have them.
fn owner(owner: &BudgetOwner) -> Cow<'_, str> {
    match owner {
        BudgetOwner::Trial(trial) => Cow::Borrowed(trial),
        BudgetOwner::Difference { factor, a, b, .. } => format!("{factor} {a} - {b}").into(),
        BudgetOwner::Group { levels, .. } => {
            levels.iter().map(|(factor, level)| format!("{factor} {level}")).collect::<Vec<_>>().join(", ").into()
        }
    }
}
