//! `balance-<factor>`: where the fuel's energy went, one stacked bar a level; one bar a trial where nothing is compared.

use super::stacked::{self, Bar, Part};
use super::{Chart, Home};
use crate::figure::{hull, term_fill};
use crate::words::{Typography, Wording, balance_term_name, plural};
use crate::{ReportError, place};
use calefact_analysis::result::{Analysis, Comparison, GroupBalance, TrialResult};
use calefact_stats::{Estimate, Interval};

/// Trials drawn one by one.
const MOST: usize = 16;
/// Comparisons drawn; the others are in the table.
const MOST_FACTORS: usize = 3;

/// Draws the charts the analysis has data for.
pub(super) fn draw(w: &Wording<'_>, analysis: &Analysis) -> Result<Vec<Chart>, ReportError> {
    let mut charts: Vec<Chart> = Vec::new();
    for comparison in analysis.comparisons.iter().filter(|c| c.balances.iter().any(|b| b.level != c.balances[0].level))
    {
        let chart = group_chart(w, comparison)?;
        if charts.len() < MOST_FACTORS && !charts.iter().any(|c| c.file == chart.file) {
            charts.push(chart);
        }
    }
    if charts.is_empty() {
        charts.extend(trial_chart(analysis)?);
    }
    Ok(charts)
}

/// One bar a level.
fn group_chart(w: &Wording<'_>, comparison: &Comparison) -> Result<Chart, ReportError> {
    let bars: Vec<Bar> = comparison.levels.iter().filter_map(|l| level_bar(w, comparison, l)).take(MOST).collect();
    let title = title(comparison.balances.iter().filter(|b| b.term == "stored").map(|b| b.share.value));
    Ok(Chart {
        file: place::file(&format!("balance-{}", place::slug(&comparison.factor)), "svg"),
        home: Home::Balance,
        svg: stacked::draw(&title, AXIS, &bars)?,
        caption: caption(w, comparison),
    })
}

fn level_bar(w: &Wording<'_>, comparison: &Comparison, level: &str) -> Option<Bar> {
    let own: Vec<&GroupBalance> = comparison.balances.iter().filter(|b| b.level == level).collect();
    let n = own.iter().map(|b| b.n).max()?;
    let name = format!("{} · {}", w.level(&comparison.factor, level), plural(n, "trial"));
    Some(Bar { name, parts: own.into_iter().map(|b| part(b.term, &b.share)).collect() })
}

const AXIS: &str = "Share of the fuel's energy (%)";
const OPEN: &str = "The open box is what no reading explains, such as heat given to the room; the line under it shows how far its \
    edge is uncertain. Two numbers are the ends of an interval.";

fn caption(w: &Wording<'_>, comparison: &Comparison) -> String {
    let flue =
        if comparison.balances.iter().any(|b| b.term == "flue_sensible") { "" } else { " No flue loss was measured." };
    format!("By {}: mean shares of the energy of all the wood put on.{flue} {OPEN}", w.column(&comparison.factor))
}

/// One bar a trial.
fn trial_chart(analysis: &Analysis) -> Result<Option<Chart>, ReportError> {
    let usable = |t: &&TrialResult| !t.balance.is_empty() && t.usable();
    let bars: Vec<Bar> = analysis.shown.iter().filter(usable).take(MOST).map(trial_bar).collect();
    if bars.is_empty() {
        return Ok(None);
    }
    let stored = bars.iter().flat_map(|b| &b.parts).filter(|p| p.words == balance_term_name("stored")).map(|p| p.share);
    let svg = stacked::draw(&title(stored), AXIS, &bars)?;
    let caption = format!("Shares of the fuel's energy in single trials, {MOST} at most. {OPEN}");
    Ok(Some(Chart { file: "balance.svg".to_owned(), home: Home::Balance, svg, caption }))
}

fn trial_bar(trial: &TrialResult) -> Bar {
    let parts = trial.balance.iter().map(|b| part(b.term, &b.share)).collect();
    Bar { name: trial.row.trial.clone(), parts }
}

fn part(term: &str, share: &Estimate) -> Part {
    let Interval { lower, upper, .. } = share.interval;
    Part { words: balance_term_name(term), share: share.value, fill: term_fill(term), range: Some((lower, upper)) }
}

fn title(into_water: impl Iterator<Item = f64>) -> String {
    let (low, high) = hull(into_water).unwrap_or((f64::NAN, f64::NAN));
    if low.is_nan() {
        return "Where the fuel's energy went".to_owned();
    }
    let (low, high) = (Typography::Page.percent(low), Typography::Page.percent(high));
    let range = if low == high { low } else { format!("{low} to {high}") };
    format!("Where the fuel's energy went: {range} into the water")
}
