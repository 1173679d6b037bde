//! Charts of group means: `efficiency`, `fuel_per_heat`, `reference_time` and whatever else a comparison asks for.

use super::dots::{self, Strip};
use super::{Chart, Home};
use crate::words::{Wording, capital, chart_title, group_interval, heading, hidden_marks, quantity_in_sentence};
use crate::{ReportError, pick, place};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Analysis, Comparison, GroupResult};
use calefact_stats::Interval;

/// Quantities drawn for a comparison, in its own order; the rest is in the tables.
const MOST: usize = 6;
/// Groups drawn in one chart; more than this is for the table.
const MOST_GROUPS: usize = 24;

/// Draws the charts of all comparisons.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Vec<Chart>, ReportError> {
    let index = pick::Index::new(analysis);
    let mut charts = Vec::new();
    for (number, comparison) in analysis.comparisons.iter().enumerate() {
        for quantity in pick::quantities(comparison).into_iter().take(MOST) {
            let groups = pick::groups(comparison, quantity);
            if groups.is_empty() {
                continue;
            }
            let strips: Vec<Strip> = groups.iter().take(MOST_GROUPS).map(|g| strip(w, g, &index)).collect();
            let unit = w.unit_of_estimate(quantity, &groups[0].mean);
            let axis = capital(&heading(quantity_in_sentence(quantity), &unit.symbol));
            let (svg, hidden) = dots::draw(&chart_title(w, comparison, quantity), &axis, &strips)?;
            let file = file(analysis, number, comparison, quantity);
            charts.push(Chart {
                file,
                home: Home::Comparison(number, quantity),
                svg,
                caption: caption(w, &groups, analysis.level) + &hidden_marks(hidden),
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

fn strip(w: &Wording<'_>, group: &GroupResult, index: &pick::Index<'_>) -> Strip {
    let unit = w.unit_of_estimate(group.quantity, &group.mean);
    let shown = w.estimate_in(&unit, &group.mean);
    let n = group.trials.len();
    let pair = |i: &Interval| (unit.value(i.lower), unit.value(i.upper));
    Strip {
        label: w.group(&group.levels),
        words: format!("{} ({}), n = {n}", shown.with_unit(), group_interval(w, group)),
        points: index.values(group).into_iter().map(|v| unit.value(v)).collect(),
        mean: unit.value(group.mean.value),
        interval: pair(&group.mean.interval),
        predict: group.predict.as_ref().map(pair),
    }
}

fn caption(w: &Wording<'_>, groups: &[&GroupResult], level: f64) -> String {
    let next = " Thin line: where the next trial is expected. An arrow goes on beyond the frame.";
    let alone = " Of a group of one trial the bar is the interval of that trial.";
    let cut = format!(" The first {MOST_GROUPS} of {} groups are drawn; all are in the tables.", groups.len());
    format!(
        "Small marks: single trials. Thick bar and dark mark: mean with its {} interval.{}{}{}",
        w.confidence(level),
        if groups.iter().any(|g| g.is_one_trial()) { alone } else { "" },
        if groups.iter().any(|g| g.predict.is_some()) { next } else { "" },
        if groups.len() > MOST_GROUPS { cut.as_str() } else { "" },
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Typography;

    #[test]
    fn the_efficiency_chart_as_drawn() {
        let charts =
            draw(&Wording { typography: Typography::Page, ..Wording::plain() }, &crate::fixture::analysis()).unwrap();
        assert_eq!(charts[0].file, "efficiency-stove.svg");
        insta::assert_snapshot!(charts[0].svg);
    }
}
