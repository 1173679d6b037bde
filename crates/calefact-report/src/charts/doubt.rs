//! `doubt`: what the uncertainty of the main quantity is made of, one stacked bar a difference of the first comparison, or a
//! group where nothing is compared.

use super::stacked::{self, Bar, Part};
use super::{Chart, Home};
use crate::figure::{Colour, DARK_ON_FILL, PALE_ON_FILL};
use crate::words::source::source;
use crate::words::{Wording, short_quantity_name};
use crate::{ReportError, pick, standing};
use calefact_analysis::Quantity;
use calefact_analysis::fact::ErrorSource;
use calefact_analysis::result::{Analysis, BudgetOwner, BudgetRow, Comparison};

/// Sources told apart; the rest is one part.
const MOST: usize = 5;
/// Bars drawn.
const MOST_BARS: usize = 8;
/// Fill and ink by rank of the source.
const FILLS: [(Colour, Colour); MOST] = [
    ((92, 86, 78), PALE_ON_FILL),
    ((0, 94, 150), PALE_ON_FILL),
    ((243, 184, 116), DARK_ON_FILL),
    ((134, 192, 226), DARK_ON_FILL),
    ((190, 82, 0), PALE_ON_FILL),
];
const OTHERS: (Colour, Colour) = ((226, 221, 212), DARK_ON_FILL);

/// Draws the chart, if the first comparison has a budget.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let Some(comparison) = analysis.comparisons.first() else { return Ok(None) };
    let Some(&quantity) = pick::quantities(comparison).first() else { return Ok(None) };
    let differences = budgets(w, analysis, quantity, &differences(comparison, quantity));
    let (budgets, subject) = if differences.is_empty() {
        (budgets(w, analysis, quantity, &groups(comparison, quantity)), "mean")
    } else {
        (differences, "difference")
    };
    if budgets.is_empty() {
        return Ok(None);
    }
    let main = ranked(&budgets);
    let bars: Vec<Bar> = budgets.iter().map(|(name, rows)| bar(w, name, rows, &main)).collect();
    let of = if subject == "mean" { "" } else { "differences in " };
    let title = format!("Where the uncertainty of {of}{} comes from", short_quantity_name(quantity));
    let svg = stacked::draw(&title, &format!("Share of the variance of the {subject} (%)"), &bars)?;
    let caption = "More trials reduce the scatter. An error that all trials share, such as the offset of an instrument, becomes smaller only with a better instrument or a calibration.";
    Ok(Some(Chart { file: "doubt.svg".to_owned(), home: Home::Doubt, svg, caption: caption.to_owned() }))
}

/// The differences of the first comparison.
fn differences(comparison: &Comparison, quantity: Quantity) -> Vec<BudgetOwner> {
    let pairs = standing::main_pairs(comparison, quantity).into_iter();
    pairs
        .map(|c| {
            let (factor, a, b) = (c.factor.clone(), c.a.clone(), c.b.clone());
            BudgetOwner::Difference { comparison: 0, factor, a, b }
        })
        .collect()
}

/// The groups of the first comparison.
fn groups(comparison: &Comparison, quantity: Quantity) -> Vec<BudgetOwner> {
    let groups = pick::groups(comparison, quantity).into_iter();
    groups.map(|g| BudgetOwner::Group { comparison: 0, levels: g.levels.clone() }).collect()
}

/// The budgets of the owners that have one, each with its name.
fn budgets<'a>(
    w: &Wording<'_>,
    analysis: &'a Analysis,
    quantity: Quantity,
    owners: &[BudgetOwner],
) -> Vec<(String, Vec<&'a BudgetRow>)> {
    let rows = |owner: &BudgetOwner| -> Vec<&'a BudgetRow> {
        analysis.budget.iter().filter(|row| row.quantity == quantity && row.owner == *owner).collect()
    };
    let named = owners.iter().take(MOST_BARS).map(|owner| (w.budget_owner(owner), rows(owner)));
    named.filter(|(_, rows)| !rows.is_empty()).collect()
}

/// The largest sources over all groups, largest first.
fn ranked<'a>(groups: &[(String, Vec<&'a BudgetRow>)]) -> Vec<&'a ErrorSource> {
    let mut sums: Vec<(&ErrorSource, f64)> = Vec::new();
    for row in groups.iter().flat_map(|(_, rows)| rows) {
        match sums.iter_mut().find(|(source, _)| **source == row.source) {
            Some((_, sum)) => *sum += row.share,
            None => sums.push((&row.source, row.share)),
        }
    }
    sums.sort_by(|a, b| b.1.total_cmp(&a.1));
    sums.into_iter().take(MOST).map(|s| s.0).collect()
}

fn bar(w: &Wording<'_>, name: &str, rows: &[&BudgetRow], main: &[&ErrorSource]) -> Bar {
    let share = |wanted: &ErrorSource| rows.iter().filter(|r| r.source == *wanted).map(|r| r.share).sum::<f64>();
    let mut parts: Vec<Part> =
        main.iter().zip(FILLS).map(|(s, fill)| Part::exact(source(w, s), share(s), fill)).collect();
    let rest = 1.0 - parts.iter().map(|p| p.share).sum::<f64>();
    if rest > 0.002 {
        parts.push(Part::exact("other sources".to_owned(), rest, OTHERS));
    }
    Bar { name: name.to_owned(), parts }
}
