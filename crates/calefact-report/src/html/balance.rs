//! The energy balance as a table: one row a trial, one column a term.

use super::grid::{Grid, Names};
use crate::words::{Wording, balance_term_name, capital, comparison_title, heading};
use calefact_analysis::Quantity;
use calefact_analysis::result::Analysis;

/// Trials shown; more are in `balance.csv`.
const MOST: usize = 40;

/// Mean shares by level of the comparisons, if there are any.
pub(super) fn groups(w: &Wording<'_>, analysis: &Analysis) -> Option<Grid> {
    let all = || analysis.comparisons.iter().flat_map(|c| c.balances.iter().map(move |b| (c, b)));
    let mut terms: Vec<&str> = Vec::new();
    let mut rows: Vec<(String, String, Vec<Option<String>>)> = Vec::new();
    for (_, balance) in all() {
        if !terms.contains(&balance.term) {
            terms.push(balance.term);
        }
    }
    for (comparison, balance) in all() {
        let name = (capital(&comparison_title(w, comparison)), w.level(&comparison.factor, &balance.level));
        if !rows.iter().any(|(f, l, _)| (f, l) == (&name.0, &name.1)) {
            rows.push((name.0.clone(), name.1.clone(), vec![None; terms.len()]));
        }
        let shown = w.estimate(Quantity::Unaccounted, &balance.share);
        let row = rows.iter_mut().find(|(f, l, _)| (f, l) == (&name.0, &name.1));
        if let (Some(row), Some(at)) = (row, terms.iter().position(|t| *t == balance.term)) {
            row.2[at] = Some(format!("{} {}", shown.value, shown.spread));
        }
    }
    let mut head = vec![("Comparison".to_owned(), false), ("Level".to_owned(), false)];
    head.extend(terms.iter().map(|t| (heading(&capital(&balance_term_name(t)), "%"), true)));
    let cells = |(f, l, shares): (String, String, Vec<Option<String>>)| {
        [f, l].into_iter().chain(shares.into_iter().map(Option::unwrap_or_default)).collect()
    };
    (!rows.is_empty()).then(|| Grid {
        caption: "Mean share of the energy of the fuel put on ± half width of its interval, or the interval where a bound cuts it.".to_owned(),
        head,
        rows: rows.into_iter().map(cells).collect(),
        names: Names::None,
    })
}

/// The table, if any trial has a balance.
pub(super) fn grid(w: &Wording<'_>, analysis: &Analysis) -> Option<Grid> {
    let trials: Vec<_> = analysis.shown.iter().filter(|t| !t.balance.is_empty()).collect();
    let count = analysis.trials.iter().filter(|t| t.balanced()).count();
    let mut terms: Vec<&str> = Vec::new();
    for term in trials.iter().flat_map(|t| &t.balance) {
        if !terms.contains(&term.term) {
            terms.push(term.term);
        }
    }
    if terms.is_empty() {
        return None;
    }
    let mut head = vec![("Trial".to_owned(), false)];
    head.extend(terms.iter().map(|t| (heading(&capital(&balance_term_name(t)), "%"), true)));
    let rows = trials.iter().take(MOST).map(|trial| {
        let mut row = vec![trial.row.trial.clone()];
        row.extend(terms.iter().map(|term| {
            trial.balance.iter().find(|b| b.term == *term).map_or_else(String::new, |b| {
                let shown = w.estimate(Quantity::Unaccounted, &b.share);
                format!("{} {}", shown.value, shown.spread)
            })
        }));
        row
    });
    let listed = trials.len().min(MOST);
    let left = if count > listed {
        format!(" The first {listed} of {count} trials; all are in the table of balances.")
    } else {
        String::new()
    };
    Some(Grid {
        caption: format!("Share of the fuel's energy in each trial.{left}"),
        head,
        rows: rows.collect(),
        names: Names::Linked,
    })
}
