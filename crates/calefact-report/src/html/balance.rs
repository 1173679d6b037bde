//! The energy balance as a table: one row a trial, one column a term.

use super::{Grid, Names};
use crate::charts::balance::words;
use crate::charts::headline::capital;
use crate::readable::Readable;
use calefact_analysis::Quantity;
use calefact_analysis::result::Analysis;

/// Trials shown; more are in `balance.csv`.
const MOST: usize = 40;

/// The table, if any trial has a balance.
pub(super) fn grid(analysis: &Analysis) -> Option<Grid> {
    let trials: Vec<_> = analysis.trials.iter().filter(|t| !t.balance.is_empty()).collect();
    let mut terms: Vec<&str> = Vec::new();
    for term in trials.iter().flat_map(|t| &t.balance) {
        if !terms.contains(&term.term) {
            terms.push(term.term);
        }
    }
    if terms.is_empty() {
        return None;
    }
    let share = Readable::of(Quantity::Unaccounted);
    let mut head = vec![("Trial".to_owned(), false)];
    head.extend(terms.iter().map(|t| (format!("{} (%)", capital(&words(t))), true)));
    let rows = trials.iter().take(MOST).map(|trial| {
        let mut row = vec![trial.row.trial.clone()];
        row.extend(terms.iter().map(|term| {
            trial.balance.iter().find(|b| b.term == *term).map_or_else(String::new, |b| {
                let shown = share.show(&b.share);
                format!("{} ± {}", shown.value, shown.half)
            })
        }));
        row
    });
    let left =
        if trials.len() > MOST { format!(" The first {MOST} of {} trials.", trials.len()) } else { String::new() };
    Some(Grid { caption: format!("Share of the fuel's energy, trial by trial.{left}"), head, rows: rows.collect(), names: Names::Linked })
}
