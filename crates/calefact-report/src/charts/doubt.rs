//! `doubt`: what the uncertainty of the main quantity is made of, one stacked bar a group of the first comparison.

use super::stacked::{self, Bar, Part};
use super::{Chart, Home};
use crate::figure::{Colour, INK, PAPER};
use crate::words::source::source;
use crate::words::{Wording, short_quantity_name};
use crate::{ReportError, pick};
use calefact_analysis::fact::ErrorSource;
use calefact_analysis::result::{Analysis, BudgetOwner, BudgetRow, GroupResult};

/// Sources told apart; the rest is one part.
const MOST: usize = 5;
/// Groups drawn.
const MOST_GROUPS: usize = 8;
/// Fill and ink by rank of the source.
const FILLS: [(Colour, Colour); MOST] = [
    ((92, 86, 78), PAPER),
    ((0, 94, 150), PAPER),
    ((243, 184, 116), INK),
    ((134, 192, 226), INK),
    ((190, 82, 0), PAPER),
];
const OTHERS: (Colour, Colour) = ((226, 221, 212), INK);

/// Draws the chart, if the first comparison has a budget.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let Some(comparison) = analysis.comparisons.first() else { return Ok(None) };
    let Some(&quantity) = pick::quantities(comparison).first() else { return Ok(None) };
    let groups: Vec<(String, Vec<&BudgetRow>)> = pick::groups(comparison, quantity)
        .into_iter()
        .take(MOST_GROUPS)
        .map(|g| (w.group(&g.levels), rows(analysis, g)))
        .filter(|(_, rows)| !rows.is_empty())
        .collect();
    if groups.is_empty() {
        return Ok(None);
    }
    let main = ranked(&groups);
    let bars: Vec<Bar> = groups.iter().map(|(name, rows)| bar(w, name, rows, &main)).collect();
    let title = format!("Where the uncertainty of {} comes from", short_quantity_name(quantity));
    let svg = stacked::draw(&title, "Share of the variance of the mean (%)", &bars)?;
    let caption = "More trials reduce the scatter. An error that all trials share, such as the offset of an instrument, becomes smaller only with a better instrument or a calibration.";
    Ok(Some(Chart { file: "doubt.svg".to_owned(), home: Home::Doubt, svg, caption: caption.to_owned() }))
}

/// Budget of a group of the first comparison.
fn rows<'a>(analysis: &'a Analysis, group: &GroupResult) -> Vec<&'a BudgetRow> {
    let owner = BudgetOwner::Group { comparison: 0, levels: group.levels.clone() };
    analysis.budget.iter().filter(|row| row.quantity == group.quantity && row.owner == owner).collect()
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
        main.iter().zip(FILLS).map(|(s, fill)| Part { words: source(w, s), share: share(s), fill }).collect();
    let rest = 1.0 - parts.iter().map(|p| p.share).sum::<f64>();
    if rest > 0.002 {
        parts.push(Part { words: "other sources".to_owned(), share: rest, fill: OTHERS });
    }
    Bar { name: name.to_owned(), parts }
}
