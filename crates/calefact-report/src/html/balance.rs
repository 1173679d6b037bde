//! The energy balance as a table: one row a trial, one column a term.

use super::grid::{Grid, Names, head};
use crate::pick;
use crate::words::{Wording, balance_term_name, capital, comparison_title, heading};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Analysis, Comparison, GroupResult};

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
        caption: "Mean share of the energy of all the wood put on ± half width of its interval, or the interval where a bound cuts it.".to_owned(),
        head,
        rows: rows.into_iter().map(cells).collect(),
        names: Names::None,
    })
}

/// How the shares of the balance, of all wood put on, lead to the thermal efficiency of the verdicts, of the wood burnt: a row
/// a level of the first comparison that has both.
pub(super) fn reconciled(w: &Wording<'_>, analysis: &Analysis) -> Option<Grid> {
    let rows = |comparison: &Comparison| -> Vec<Vec<String>> {
        let groups = pick::groups(comparison, Quantity::ThermalEfficiency);
        groups.into_iter().filter_map(|g| reconciled_row(w, comparison, g)).collect()
    };
    let rows = analysis.comparisons.iter().map(rows).find(|rows| !rows.is_empty())?;
    let columns = [
        ("Level", false),
        ("Into the water (%)", true),
        ("Lost by the vessel (%)", true),
        ("Wood and char left (%)", true),
        ("Efficiency from these (%)", true),
        ("Thermal efficiency of the verdict (%)", true),
    ];
    Some(Grid {
        caption: "Two efficiencies, one burn. The balance counts all the wood put on; the verdict counts only the wood burnt \
                  (net: without the heat of steam; credited: what was left over is taken off). So the efficiency is what \
                  went into the water and what the vessel lost, divided by what was not left over. Where the verdict holds \
                  other columns constant, the last two differ a little."
            .to_owned(),
        head: head(&columns),
        rows,
        names: Names::None,
    })
}

fn reconciled_row(w: &Wording<'_>, comparison: &Comparison, group: &GroupResult) -> Option<Vec<String>> {
    let level = pick::single_level(group)?;
    let share = |term: &str| {
        let found = comparison.balances.iter().find(|b| b.level == level && b.term == term);
        found.map_or(0.0, |b| b.share.value)
    };
    let (stored, lost, left) =
        (share("stored"), share("standing_loss"), share("leftover_fuel") + share("leftover_char"));
    let percent = |x: f64| w.typography.fixed(100.0 * x, 1);
    (stored > 0.0 && left < 1.0).then(|| {
        let verdict = w.estimate(group.quantity, &group.mean).value;
        let numbers = [stored, lost, left, (stored + lost) / (1.0 - left)].map(percent);
        [w.group(&group.levels)].into_iter().chain(numbers).chain([verdict]).collect()
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn the_shares_of_the_balance_lead_to_an_efficiency() {
        let mut analysis = fixture::analysis();
        let share = |term: &str| match term {
            "stored" => 0.30,
            "standing_loss" => 0.06,
            "leftover_char" => 0.10,
            _ => 0.0,
        };
        analysis.comparisons[0].balances.iter_mut().for_each(|b| b.share.value = share(b.term));
        let grid = reconciled(&Wording::plain(), &analysis).unwrap();
        assert_eq!(grid.rows[0][1..5], ["30.0", "6.0", "10.0", "40.0"], "36 % of the 90 % that was burnt");
        analysis.comparisons[0].balances.clear();
        assert!(reconciled(&Wording::plain(), &analysis).is_none());
    }
}
