//! `missing`: quantities a trial should have but could not be given, and why.

use crate::columns::Table;
use crate::words::{Wording, gap};
use calefact_analysis::result::TrialResult;

/// The rows of some trials.
pub(super) fn table(trials: &[TrialResult]) -> Table<'_> {
    let rows = || trials.iter().flat_map(|t| t.missing.iter().map(move |m| (t.row.trial.as_str(), m)));
    Table::new("missing")
        .text("trial", "trial id", rows().map(|r| r.0))
        .text("quantity", "quantity name", rows().map(|r| r.1.quantity.name()))
        .text("reason", "what is lacking", rows().map(|r| gap::lacks(&Wording::plain(), &r.1.lacks)))
}
