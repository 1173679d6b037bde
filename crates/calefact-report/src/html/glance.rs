//! A comparison at a glance: one row a quantity, one column a level, and how the differences stand. The winner is in bold where
//! every pair is settled.

use super::grid::Text;
use crate::standing::{self, Standing};
use crate::words::{Wording, capital, glossary, heading, quantity_in_sentence, settled_pairs, standing_words};
use crate::{pick, words};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Comparison, GroupResult};

/// Levels up to which the table is made; more are in the table of means.
const MOST_LEVELS: usize = 6;

/// The table.
pub(super) struct Glance {
    /// Names of the levels.
    pub(super) levels: Vec<Text>,
    /// One row a quantity.
    pub(super) rows: Vec<Row>,
}

/// A quantity.
pub(super) struct Row {
    /// "Burn rate (kg/h)".
    pub(super) name: Text,
    /// Its meaning, where no earlier table of the page says it.
    pub(super) meaning: &'static str,
    /// One value a level.
    pub(super) cells: Vec<Cell>,
    /// How the differences stand.
    pub(super) verdict: Text,
}

/// The mean of a level.
pub(super) struct Cell {
    /// Mean; empty where there is none.
    pub(super) value: Text,
    /// "± 2.5".
    pub(super) spread: Text,
    /// Whether it is better than every other level, and all pairs are settled.
    pub(super) wins: bool,
}

/// The table of a comparison, if it has few enough levels. `known` are the quantities explained before.
pub(super) fn glance(w: &Wording<'_>, comparison: &Comparison, known: &mut Vec<Quantity>) -> Option<Glance> {
    let quantities = pick::quantities(comparison);
    let levels: Vec<&[(String, String)]> =
        pick::groups(comparison, *quantities.first()?).iter().map(|g| &g.levels[..]).collect();
    if levels.is_empty() || levels.len() > MOST_LEVELS {
        return None;
    }
    let rows = quantities.iter().map(|q| row(w, comparison, (*q, &levels), known)).collect();
    Some(Glance { levels: levels.iter().map(|l| capital(&level_name(w, l))).collect(), rows })
}

/// "Rocket stove", "damper 30".
fn level_name(w: &Wording<'_>, levels: &[(String, String)]) -> Text {
    match levels {
        [(factor, level)] => w.level_of_factor(factor, level),
        several => w.group(several),
    }
}

fn row(
    w: &Wording<'_>,
    comparison: &Comparison,
    (quantity, levels): (Quantity, &[&[(String, String)]]),
    known: &mut Vec<Quantity>,
) -> Row {
    let meaning = if known.contains(&quantity) { "" } else { glossary::meaning(quantity) };
    known.push(quantity);
    let groups = pick::groups(comparison, quantity);
    let group = |level: &&[(String, String)]| groups.iter().find(|g| g.levels == **level).copied();
    let standing = standing::standing(comparison, quantity);
    let winner =
        pick::best_first(comparison, quantity).first().copied().filter(|_| standing == Some(Standing::Settled));
    let unit = groups.first().map_or_else(String::new, |g| w.unit_of_estimate(quantity, &g.mean).symbol);
    Row {
        name: capital(&heading(quantity_in_sentence(quantity), &unit)),
        meaning,
        cells: levels.iter().map(|l| cell(w, group(l), winner)).collect(),
        verdict: standing.map_or_else(Text::new, |s| verdict(w, comparison, quantity, s)),
    }
}

fn cell(w: &Wording<'_>, group: Option<&GroupResult>, winner: Option<&GroupResult>) -> Cell {
    let Some(group) = group else { return Cell { value: Text::new(), spread: Text::new(), wins: false } };
    let shown = w.estimate(group.quantity, &group.mean);
    let directed = group.quantity.better() != calefact_analysis::Better::Neither;
    Cell {
        value: shown.value,
        spread: shown.spread,
        wins: directed && winner.is_some_and(|g| g.levels == group.levels),
    }
}

/// "settled", "1 of 3 pairs settled: Rocket stove below Box stove".
fn verdict(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity, standing: Standing) -> Text {
    let words = standing_words(w, comparison, quantity, standing);
    match standing {
        Standing::Partly { .. } => format!("{words}: {}", words::list(&settled_pairs(w, comparison, quantity))),
        _ => words,
    }
}
