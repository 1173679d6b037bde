//! The evidence behind the answers: charts, group means, contrasts, loss coefficients.

use super::{Grid, Names, Text, answer, said};
use crate::charts::{Chart, Home, headline};
use crate::readable::{Readable, join};
use crate::{format, pick};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Analysis, Comparison, Contrast, ContrastKind, GroupResult, Trend, VerdictKind};
use calefact_stats::Estimate;

/// Charts shown at once.
const CHARTS: usize = 2;
/// Remarks shown at once.
const REMARKS: usize = 3;
/// Reference-heater trials shown.
const RIG_ROWS: usize = 20;

/// The evidence of a comparison.
pub(super) struct Section<'a> {
    /// Heading.
    pub(super) title: Text,
    /// Anchor.
    pub(super) anchor: Text,
    /// All verdicts, by quantity.
    pub(super) folds: Vec<said::Fold>,
    /// The gravest remarks on the design.
    pub(super) remarks: Vec<Text>,
    /// The others.
    pub(super) more_remarks: Vec<Text>,
    /// Charts of the first quantities.
    pub(super) charts: Vec<&'a Chart>,
    /// The other charts.
    pub(super) more_charts: Vec<&'a Chart>,
    /// Group means.
    pub(super) groups: Grid,
    /// Pairwise contrasts.
    pub(super) contrasts: Option<Grid>,
    /// Trends along numbers.
    pub(super) trends: Option<Grid>,
}

/// One section a comparison.
pub(super) fn of<'a>(analysis: &'a Analysis, charts: &'a [Chart]) -> Vec<Section<'a>> {
    let own = |n: usize| charts.iter().filter(move |c| matches!(c.home, Home::Comparison(m, _) if m == n));
    let section = |(number, comparison): (usize, &'a Comparison)| Section {
        title: headline::capital(&comparison.title.replace('_', " ")),
        anchor: answer::anchor(comparison),
        folds: said::folds(comparison),
        remarks: remarks(comparison).take(REMARKS).collect(),
        more_remarks: remarks(comparison).skip(REMARKS).collect(),
        charts: own(number).take(CHARTS).collect(),
        more_charts: own(number).skip(CHARTS).collect(),
        groups: groups(comparison, analysis.level),
        contrasts: contrasts(comparison),
        trends: trends(comparison),
    };
    analysis.comparisons.iter().enumerate().map(section).collect()
}

/// Remarks on a comparison, what was looked for and not found last.
fn remarks(comparison: &Comparison) -> impl Iterator<Item = Text> + '_ {
    comparison.remarks.iter().chain(&comparison.reassurances).map(|r| said::full(r))
}

/// Headings with whether the column holds numbers.
pub(super) fn head(columns: &[(&str, bool)]) -> Vec<(Text, bool)> {
    columns.iter().map(|(name, number)| ((*name).to_owned(), *number)).collect()
}

fn groups(comparison: &Comparison, level: f64) -> Grid {
    let interval = format!("{} interval", format::percent(level));
    let columns = [
        ("Quantity", false),
        ("Group", false),
        ("n", true),
        ("Mean", true),
        (interval.as_str(), true),
        ("Between trials, sd", true),
        ("Next trial", true),
    ];
    Grid {
        caption: format!(
            "Group means{}. The next trial of a group is expected within the last column.",
            how(comparison.groups.iter().map(|g| &g.mean))
        ),
        head: head(&columns),
        rows: pick::quantities(comparison).into_iter().flat_map(|q| pick::groups(comparison, q)).map(group).collect(),
        names: Names::None,
    }
}

fn group(group: &GroupResult) -> Vec<Text> {
    let readable = Readable::of_estimate(group.quantity, &group.mean);
    let shown = readable.show(&group.mean);
    let sd = group.between_sd.map(|sd| sd * readable.factor);
    let sd = sd.map_or_else(|| "–".to_owned(), |sd| format::fixed(sd, format::places(sd).unwrap_or(0)));
    vec![
        headline::capital(group.quantity.label()),
        pick::group_name(group),
        group.trials.len().to_string(),
        shown.with_unit(),
        shown.interval,
        sd,
        group.predict.as_ref().map_or_else(|| "–".to_owned(), |p| readable.interval(p, &group.mean)),
    ]
}

/// How some numbers were obtained, for a caption, where all were in one way.
fn how<'e>(mut numbers: impl Iterator<Item = &'e Estimate>) -> String {
    let Some(first) = numbers.next() else { return String::new() };
    if numbers.all(|e| e.method == first.method) {
        format!(" ({})", first.method)
    } else {
        " (in several ways, told in the tables)".to_owned()
    }
}

fn contrasts(comparison: &Comparison) -> Option<Grid> {
    if comparison.contrasts.is_empty() {
        return None;
    }
    let columns = [
        ("Quantity", false),
        ("Compared", false),
        ("Result", true),
        ("Interval", true),
        ("p, adjusted", true),
        ("Verdict", false),
        ("Further trials each", true),
    ];
    let ratios = comparison.contrasts.iter().any(|c| c.kind == ContrastKind::Ratio);
    let adjustments: Vec<String> = comparison.contrasts.first().map(|c| c.adjustment.to_owned()).into_iter().collect();
    Some(Grid {
        caption: format!(
            "Pairwise comparisons{}; adjustment for their number: {}.{}",
            how(comparison.contrasts.iter().map(|c| &c.estimate)),
            super::list(&adjustments),
            if ratios { " Differences and ratios are judged each for themselves and need not agree." } else { "" }
        ),
        head: head(&columns),
        rows: comparison.contrasts.iter().map(contrast).collect(),
        names: Names::None,
    })
}

fn trends(comparison: &Comparison) -> Option<Grid> {
    let columns = [("Quantity", false), ("Slope", true), ("Interval", true), ("Unit", false), ("p", true), ("n", true)];
    let row = |t: &Trend| {
        let mut readable = Readable::of_estimate(t.quantity, &t.estimate);
        if readable.unit == "%" {
            "% points".clone_into(&mut readable.unit);
        }
        let shown = readable.show(&t.estimate);
        // A cost carries its step in its unit already.
        let unit = if shown.unit.contains(&t.per) { shown.unit } else { format!("{} {}", shown.unit, t.per) };
        let name = headline::capital(headline::short(t.quantity));
        vec![name, shown.value, shown.interval, unit, format::p_value(t.p_value), t.n.to_string()]
    };
    (!comparison.trends.is_empty()).then(|| Grid {
        caption: "Trends: how much a quantity changes with each step of a number.".to_owned(),
        head: head(&columns),
        rows: comparison.trends.iter().map(row).collect(),
        names: Names::None,
    })
}

fn contrast(c: &Contrast) -> Vec<Text> {
    let shown = Readable::of_contrast(c).show(&c.estimate);
    let sign = if c.kind == ContrastKind::Difference { "−" } else { "/" };
    let verdict = match c.verdict {
        VerdictKind::Above => "above",
        VerdictKind::Below => "below",
        VerdictKind::Equivalent => "same within margin",
        VerdictKind::NoConclusion => "not settled",
    };
    vec![
        headline::capital(headline::short(c.quantity)),
        format!("{} {sign} {}", c.a, c.b),
        shown.with_unit(),
        shown.interval,
        format::p_value(c.p_adjusted),
        verdict.to_owned(),
        c.more_trials.map_or_else(|| "–".to_owned(), |n| n.to_string()),
    ]
}

/// Table of the reference-heater trials: measured heat over metered heat.
pub(super) fn rig(analysis: &Analysis) -> Option<Grid> {
    let quantity = Quantity::ReferenceHeaterRatio;
    let readable = Readable::of(quantity);
    let rows = analysis.shown.iter().filter_map(|t| {
        let shown = readable.show(&t.get(quantity)?.estimate);
        Some(vec![t.row.trial.clone(), shown.value, shown.interval])
    });
    let rows: Vec<Vec<Text>> = rows.take(RIG_ROWS).collect();
    (!rows.is_empty()).then(|| Grid {
        caption: "Heat found in the vessel over metered heat put in; 1 for a rig without bias.".to_owned(),
        head: head(&[("Trial", false), ("Ratio", true), ("Interval", true)]),
        rows,
        names: Names::Linked,
    })
}

/// Table of the vessels' loss coefficients.
pub(super) fn losses(analysis: &Analysis) -> Option<Grid> {
    if analysis.losses.is_empty() {
        return None;
    }
    let readable = Readable::of(Quantity::LossCoefficient);
    let rows = analysis.losses.iter().map(|loss| {
        let shown = readable.show(&loss.estimate);
        let from = if loss.trials.is_empty() { "stated in the dataset".to_owned() } else { loss.trials.join(", ") };
        vec![loss.vessel.clone(), join(&shown.value, &shown.unit), shown.interval, from]
    });
    let columns = [("Vessel", false), ("Loss coefficient", true), ("Interval", true), ("From", false)];
    Some(Grid {
        caption: "Heat each vessel loses for every kelvin above the air.".to_owned(),
        head: head(&columns),
        rows: rows.collect(),
        names: Names::None,
    })
}
