//! Charts of group means: `efficiency`, `fuel_per_heat`, `reference_time` and whatever else a comparison asks for.

use super::dots::{self, Strip};
use super::{Chart, Home, headline};
use crate::figure::hidden_words;
use crate::readable::{self, Readable};
use crate::{ReportError, format, pick, place};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Analysis, Comparison, GroupResult};
use calefact_stats::Interval;

/// Quantities drawn for a comparison, in its own order; the rest is in the tables.
const MOST: usize = 6;
/// Groups drawn in one chart; more than this is for the table.
const MOST_GROUPS: usize = 24;

/// Draws the charts of all comparisons.
pub(super) fn draw(analysis: &Analysis) -> Result<Vec<Chart>, ReportError> {
    let index = pick::Index::new(analysis);
    let mut charts = Vec::new();
    for (number, comparison) in analysis.comparisons.iter().enumerate() {
        for quantity in pick::quantities(comparison).into_iter().take(MOST) {
            let groups = pick::groups(comparison, quantity);
            if groups.is_empty() {
                continue;
            }
            let strips: Vec<Strip> = groups.iter().take(MOST_GROUPS).map(|g| strip(g, &index)).collect();
            let readable = Readable::of_estimate(quantity, &groups[0].mean);
            let axis = headline::capital(&readable::heading(quantity.label(), &readable.unit));
            let (svg, hidden) = dots::draw(&headline::of(comparison, quantity), &axis, &strips)?;
            let file = file(analysis, number, comparison, quantity);
            charts.push(Chart {
                file,
                home: Home::Comparison(number, quantity),
                svg,
                caption: caption(&groups, analysis.level) + &hidden_words(hidden),
            });
        }
    }
    Ok(charts)
}

/// `efficiency-stove.svg`; a number follows where two comparisons share a factor.
fn file(analysis: &Analysis, number: usize, comparison: &Comparison, quantity: Quantity) -> String {
    let name = if quantity == Quantity::ThermalEfficiency { "efficiency" } else { quantity.name() };
    let factor = place::slug(&comparison.factor);
    let earlier = analysis.comparisons[..number].iter().filter(|c| place::slug(&c.factor) == factor).count();
    let suffix = if earlier == 0 { String::new() } else { format!("-{}", earlier + 1) };
    place::file(&format!("{name}-{factor}{suffix}"), "svg")
}

fn strip(group: &GroupResult, index: &pick::Index<'_>) -> Strip {
    let readable = Readable::of_estimate(group.quantity, &group.mean);
    let shown = readable.show(&group.mean);
    let n = group.trials.len();
    let pair = |i: &Interval| (i.lower * readable.factor, i.upper * readable.factor);
    Strip {
        label: pick::group_name(group),
        words: format!("{} ({}), n = {n}", shown.with_unit(), shown.interval),
        points: index.values(group).into_iter().map(|v| v * readable.factor).collect(),
        mean: group.mean.value * readable.factor,
        interval: pair(&group.mean.interval),
        predict: group.predict.as_ref().map(pair),
    }
}

fn caption(groups: &[&GroupResult], level: f64) -> String {
    let next = " Thin line: where the next trial is expected. An arrow goes on beyond the frame.";
    let cut = format!(" The first {MOST_GROUPS} of {} groups are drawn; all are in the tables.", groups.len());
    format!(
        "Small marks: single trials. Thick bar and dark mark: mean with its {} interval.{}{}",
        format::percent(level),
        if groups.iter().any(|g| g.predict.is_some()) { next } else { "" },
        if groups.len() > MOST_GROUPS { cut.as_str() } else { "" },
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_efficiency_chart_as_drawn() {
        let charts = draw(&crate::fixture::analysis()).unwrap();
        assert_eq!(charts[0].file, "efficiency-stove.svg");
        insta::assert_snapshot!(charts[0].svg);
    }
}
