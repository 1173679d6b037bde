//! What the uncertainty of each quantity is made of.

use super::grid::Text;
use crate::words::source::source;
use crate::words::{Wording, capital, short_quantity_name};
use calefact_analysis::Quantity;
use calefact_analysis::fact::ErrorSource;
use calefact_analysis::result::{Analysis, BudgetOwner, BudgetRow};

/// Sources shown for each quantity.
const MOST: usize = 6;
/// Quantities shown.
const QUANTITIES: usize = 6;

/// The budget of a quantity.
pub(super) struct Section {
    /// "Thermal efficiency, rocket".
    pub(super) title: Text,
    /// Largest sources first.
    pub(super) sources: Vec<Share>,
}

/// A source's share.
pub(super) struct Share {
    /// Source in words.
    pub(super) source: Text,
    /// "shared by trials" or nothing.
    pub(super) shared: &'static str,
    /// Share in words.
    pub(super) percent: Text,
    /// Share as a whole number for the bar.
    pub(super) width: u32,
}

/// One section for the first difference of each quantity, or for its first mean where nothing is compared.
pub(super) fn sections(w: &Wording<'_>, analysis: &Analysis) -> Vec<Section> {
    let mut heads: Vec<(Quantity, &BudgetOwner)> = Vec::new();
    let differences = analysis.budget.iter().filter(|r| matches!(r.owner, BudgetOwner::Difference { .. }));
    let means = analysis.budget.iter().filter(|r| matches!(r.owner, BudgetOwner::Group { .. }));
    for row in differences.chain(means) {
        if !heads.iter().any(|(q, _)| *q == row.quantity) {
            heads.push((row.quantity, &row.owner));
        }
    }
    heads.into_iter().take(QUANTITIES).map(|(q, owner)| section(w, analysis, q, owner)).collect()
}

fn section(w: &Wording<'_>, analysis: &Analysis, quantity: Quantity, owner: &BudgetOwner) -> Section {
    let is_own = |r: &&BudgetRow| r.quantity == quantity && r.owner == *owner;
    let mut rows: Vec<&BudgetRow> = analysis.budget.iter().filter(is_own).collect();
    rows.sort_by(|a, b| b.share.total_cmp(&a.share));
    let share = |row: &&BudgetRow| Share {
        source: source(w, &row.source),
        shared: if row.shared && row.source != ErrorSource::TrialScatter { "shared by trials" } else { "" },
        percent: w.percent(row.share),
        width: (100.0 * row.share.clamp(0.0, 1.0)).round() as u32,
    };
    let title = format!("{}, {}", capital(short_quantity_name(quantity)), w.budget_owner(owner));
    Section { title, sources: rows.iter().take(MOST).map(share).collect() }
}
