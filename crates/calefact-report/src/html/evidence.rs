//! The evidence behind the answers: charts, group means, contrasts, loss coefficients.

use super::glance::{Glance, glance};
use super::grid::{Grid, Names, Text, head};
use super::{answer, verdicts};
use crate::charts::{Chart, Home};
use crate::pick;
use crate::words::confounding::inseparable;
use crate::words::method::method_label;
use crate::words::remark::{no_interaction, remark};
use crate::words::trend::step;
use crate::words::{
    Typography, Wording, capital, comparison_title, group_interval, places, quantity_name, short_quantity_name,
};
use calefact_analysis::Quantity;
use calefact_analysis::result::{
    Adjustment, Analysis, Comparison, Contrast, ContrastKind, GroupResult, Method, SampleSizeAdvice, Trend, VerdictKind,
};
use calefact_data::ApparatusKind;

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
    /// All quantities at a glance.
    pub(super) glance: Option<Glance>,
    /// All verdicts, by quantity.
    pub(super) folds: Vec<verdicts::Fold>,
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
pub(super) fn sections<'a>(w: &Wording<'_>, analysis: &'a Analysis, charts: &'a [Chart]) -> Vec<Section<'a>> {
    let own = |n: usize| charts.iter().filter(move |c| matches!(c.home, Home::Comparison(m, _) if m == n));
    let mut known: Vec<Quantity> = Vec::new();
    let section = |(number, comparison): (usize, &'a Comparison)| Section {
        title: capital(&comparison_title(w, comparison)),
        anchor: answer::anchor(comparison),
        glance: glance(w, comparison, &mut known),
        folds: verdicts::folds(w, comparison),
        remarks: remarks(w, comparison).take(REMARKS).collect(),
        more_remarks: remarks(w, comparison).skip(REMARKS).collect(),
        charts: own(number).take(CHARTS).collect(),
        more_charts: own(number).skip(CHARTS).collect(),
        groups: groups(w, comparison, analysis.level),
        contrasts: contrasts(w, comparison),
        trends: trends(w, comparison),
    };
    analysis.comparisons.iter().enumerate().map(section).collect()
}

/// Remarks on a comparison, what was looked for and not found last.
fn remarks<'a>(w: &'a Wording<'_>, comparison: &'a Comparison) -> impl Iterator<Item = Text> + 'a {
    let found = comparison.remarks.iter().map(|r| remark(w, comparison, r));
    found.chain(comparison.reassurances.iter().map(|tested| no_interaction(w, tested)))
}

fn groups(w: &Wording<'_>, comparison: &Comparison, level: f64) -> Grid {
    let interval = format!("{} interval", w.confidence(level));
    let columns = [
        ("Quantity", false),
        ("Group", false),
        ("Trials", true),
        ("Mean", true),
        (interval.as_str(), true),
        ("Scatter between trials (standard deviation)", true),
        ("Next trial", true),
    ];
    Grid {
        caption: format!(
            "Group means{}. The next trial of a group is expected within the last column.",
            how(comparison.groups.iter().map(|g| &g.method))
        ),
        head: head(&columns),
        rows: pick::quantities(comparison)
            .into_iter()
            .flat_map(|q| pick::groups(comparison, q))
            .map(|g| group(w, g))
            .collect(),
        names: Names::None,
    }
}

fn group(w: &Wording<'_>, group: &GroupResult) -> Vec<Text> {
    let unit = w.unit_of_estimate(group.quantity, &group.mean);
    let shown = w.estimate_in(&unit, &group.mean);
    let sd = group.between_sd.map(|sd| unit.width(sd));
    let sd = sd.map_or_else(|| "–".to_owned(), |sd| Typography::Page.fixed(sd, places(sd).unwrap_or(0)));
    vec![
        capital(quantity_name(group.quantity)),
        w.group(&group.levels),
        group.trials.len().to_string(),
        shown.with_unit(),
        group_interval(w, group),
        sd,
        group.predict.as_ref().map_or_else(|| "–".to_owned(), |p| w.interval_in(&unit, p, &group.mean)),
    ]
}

/// How some numbers were obtained, for a caption, where all were in one way.
fn how<'m>(mut methods: impl Iterator<Item = &'m Method>) -> String {
    let Some(first) = methods.next() else { return String::new() };
    if methods.all(|method| method == first) {
        format!(" ({})", method_label(first))
    } else {
        " (methods differ; the tables name them)".to_owned()
    }
}

fn contrasts(w: &Wording<'_>, comparison: &Comparison) -> Option<Grid> {
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
    let adjustment = match comparison.contrasts[0].adjustment {
        Adjustment::Holm => "Holm",
        Adjustment::TukeyKramer => "Tukey and Kramer",
    };
    Some(Grid {
        caption: format!(
            "Pairwise comparisons{}. Intervals are adjusted for the pairs of a quantity after {adjustment}, p for all verdicts of \
             this page.{}",
            how(comparison.contrasts.iter().map(|c| &c.method)),
            if ratios { " A ratio has the verdict of its difference." } else { "" }
        ),
        head: head(&columns),
        rows: comparison.contrasts.iter().map(|c| contrast(w, c)).collect(),
        names: Names::None,
    })
}

fn trends(w: &Wording<'_>, comparison: &Comparison) -> Option<Grid> {
    let columns = [("Quantity", false), ("Slope", true), ("Interval", true), ("Unit", false), ("p", true), ("n", true)];
    let row = |t: &Trend| {
        let shown = w.estimate_in(&w.unit_of_difference(t.quantity), &t.estimate);
        let unit = format!("{} {}", shown.unit, step(w, t).per);
        let name = capital(short_quantity_name(t.quantity));
        vec![name, shown.value, shown.interval, unit, w.p_value(t.p_value), t.n.to_string()]
    };
    (!comparison.trends.is_empty()).then(|| Grid {
        caption: "Trends: how much a quantity changes with each step of a number.".to_owned(),
        head: head(&columns),
        rows: comparison.trends.iter().map(row).collect(),
        names: Names::None,
    })
}

fn contrast(w: &Wording<'_>, c: &Contrast) -> Vec<Text> {
    let shown = w.contrast(c);
    let sign = if c.kind == ContrastKind::Difference { "−" } else { "/" };
    let verdict = match c.verdict {
        VerdictKind::Above => "above".to_owned(),
        VerdictKind::Below => "below".to_owned(),
        VerdictKind::Equivalent => "the same within the margin".to_owned(),
        VerdictKind::NoConclusion => "not settled".to_owned(),
        VerdictKind::NotYet => "not yet: planned".to_owned(),
        VerdictKind::Confounded => inseparable(w, c.confounded.iter().map(|column| column.column.as_str())),
    };
    vec![
        capital(short_quantity_name(c.quantity)),
        format!("{} {sign} {}", w.level(&c.factor, &c.a), w.level(&c.factor, &c.b)),
        shown.with_unit(),
        shown.interval,
        w.p_value(c.p_adjusted),
        verdict,
        c.sample_size
            .as_ref()
            .and_then(SampleSizeAdvice::further_trials)
            .map_or_else(|| "–".to_owned(), |n| n.to_string()),
    ]
}

/// Table of the reference-heater trials: measured heat over metered heat.
pub(super) fn rig(w: &Wording<'_>, analysis: &Analysis) -> Option<Grid> {
    let quantity = Quantity::ReferenceHeaterRatio;
    let rows = analysis.shown.iter().filter_map(|t| {
        let shown = w.estimate(quantity, &t.get(quantity)?.estimate);
        Some(vec![t.row.trial.clone(), shown.value, shown.interval])
    });
    let rows: Vec<Vec<Text>> = rows.take(RIG_ROWS).collect();
    (!rows.is_empty()).then(|| Grid {
        caption: "Heat measured in the vessel, divided by the metered heat put in. A rig without bias gives 1."
            .to_owned(),
        head: head(&[("Trial", false), ("Ratio", true), ("Interval", true)]),
        rows,
        names: Names::Linked,
    })
}

/// Table of the vessels' loss coefficients.
pub(super) fn losses(w: &Wording<'_>, analysis: &Analysis) -> Option<Grid> {
    if analysis.losses.is_empty() {
        return None;
    }
    let rows = analysis.losses.iter().map(|loss| {
        let shown = w.estimate(Quantity::LossCoefficient, &loss.estimate);
        let from = if loss.trials.is_empty() { "stated in the dataset".to_owned() } else { loss.trials.join(", ") };
        vec![w.apparatus(ApparatusKind::Vessel, &loss.vessel), shown.with_unit(), shown.interval, from]
    });
    let columns = [("Vessel", false), ("Loss coefficient", true), ("Interval", true), ("From", false)];
    Some(Grid {
        caption: "Heat that each vessel loses for each degree above the temperature of the air.".to_owned(),
        head: head(&columns),
        rows: rows.collect(),
        names: Names::None,
    })
}
