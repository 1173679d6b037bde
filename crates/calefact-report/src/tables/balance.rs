//! `balance`: for each trial, where the fuel's energy went.

use crate::columns::Table;
use crate::words::{Wording, note};
use calefact_analysis::result::TrialResult;

/// The rows of some trials.
pub(super) fn table(trials: &[TrialResult]) -> Table<'_> {
    let rows = || trials.iter().flat_map(|t| t.balance.iter().map(move |b| (t.row.trial.as_str(), b)));
    Table::new("balance")
        .text("trial", "trial id", rows().map(|r| r.0))
        .text("term", "term of the balance", rows().map(|r| r.1.term))
        .number("energy", "as `unit`", "energy of the term", rows().map(|r| r.1.energy.value))
        .text("unit", "unit of the energy", rows().map(|r| r.1.energy.unit.as_ref()))
        .number(
            "std_uncertainty",
            "as `unit`",
            "standard uncertainty of the energy",
            rows().map(|r| r.1.energy.std_uncertainty),
        )
        .number("lower", "as `unit`", "lower end of the energy's interval", rows().map(|r| r.1.energy.interval.lower))
        .number("upper", "as `unit`", "upper end of the energy's interval", rows().map(|r| r.1.energy.interval.upper))
        .number("share", "1", "share of the fuel energy", rows().map(|r| r.1.share.value))
        .number(
            "share_std_uncertainty",
            "1",
            "standard uncertainty of the share",
            rows().map(|r| r.1.share.std_uncertainty),
        )
        .number("share_lower", "1", "lower end of the share's interval", rows().map(|r| r.1.share.interval.lower))
        .number("share_upper", "1", "upper end of the share's interval", rows().map(|r| r.1.share.interval.upper))
        .number("level", "1", "coverage probability of both intervals", rows().map(|r| r.1.share.interval.confidence))
        .text("method", "how the term was obtained", rows().map(|_| "energy balance; first order"))
        .text("note", "basis, assumption", rows().map(|r| note::notes(&Wording::plain(), &r.1.notes)))
}
