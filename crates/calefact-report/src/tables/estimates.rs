//! `estimates`: every quantity of every trial.

use super::ids::ids;
use crate::columns::Table;
use crate::words::estimate_method::estimate_method;
use crate::words::{Wording, note};
use calefact_analysis::result::TrialResult;

/// The rows of some trials.
pub(super) fn table(trials: &[TrialResult]) -> Table<'_> {
    let rows = || trials.iter().flat_map(|t| t.estimates.iter().map(move |e| (t.row.trial.as_str(), e)));
    let table = Table::new("estimates").text("trial", "trial id", rows().map(|r| r.0)).text(
        "quantity",
        "quantity name",
        rows().map(|r| r.1.quantity.name()),
    );
    table
        .estimates(rows().map(|r| &r.1.estimate))
        .number(
            "dof",
            "1",
            "effective degrees of freedom; empty where the uncertainty is taken as known",
            rows().map(|r| r.1.estimate.dof),
        )
        .text("method", "how value and uncertainty were obtained", rows().map(|r| estimate_method(r.1.method)))
        .text("note", "remark", rows().map(|r| note::notes(&Wording::plain(), &r.1.notes)))
        .text("assumed", "inputs that nobody recorded and the value rests on", rows().map(|r| ids(&r.1.assumed())))
}
