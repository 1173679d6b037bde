//! `balance_groups`: mean shares of the energy balance by level of each comparison's factor.

use crate::columns::Table;
use crate::words::method::method_label;
use crate::words::{Wording, comparison_title};
use calefact_analysis::result::{Analysis, GroupBalance, Method};

/// Builds the table.
pub(super) fn table(analysis: &Analysis) -> Table<'_> {
    let rows = || analysis.comparisons.iter().flat_map(|c| c.balances.iter().map(move |b| (c, b)));
    let table = Table::new("balance_groups")
        .text(
            "comparison",
            "comparison the balance belongs to",
            rows().map(|r| comparison_title(&Wording::plain(), r.0)),
        )
        .text("factor", "factor compared", rows().map(|r| r.0.factor.as_str()))
        .text("group", "level of the factor", rows().map(|r| r.1.level.as_str()))
        .text("term", "term of the balance", rows().map(|r| r.1.term))
        .count("n", "trials in which the term was measured", rows().map(|r| Some(r.1.n as u64)));
    table
        .means(rows().map(|r| (&r.1.share, !one_trial(r.1))))
        .number(
            "dof",
            "1",
            "effective degrees of freedom",
            rows().map(|r| if one_trial(r.1) { f64::NAN } else { r.1.share.dof }),
        )
        .text("method", "how mean and uncertainty were obtained", rows().map(|r| method_label(&r.1.method)))
}

/// How much trials differ is not known from one.
fn one_trial(balance: &GroupBalance) -> bool {
    balance.method == Method::SingleTrial
}
