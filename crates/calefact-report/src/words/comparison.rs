//! A comparison in one line, in the title of a chart, and in a word on how its differences stand. The verdicts themselves
//! are made by the analysis.

use super::comparison_finding::title;
use super::confounding::inseparable;
use super::text::{capital, list, plural};
use super::trend::trend_clause;
use super::{Wording, quantity_name, short_quantity_name};
use crate::pick;
use crate::standing::{self, Standing, confounding_columns, own_trend, standing};
use calefact_analysis::result::{Comparison, Contrast, GroupResult, VerdictKind};
use calefact_analysis::{Better, Quantity};

/// Levels named in the line.
const NAMED: usize = 6;

/// "stove: thermal efficiency Rocket stove 49 %, Box stove 33 %; settled". `None` where nothing is compared.
pub fn comparison_line(w: &Wording<'_>, comparison: &Comparison) -> Option<String> {
    let quantity = *pick::quantities(comparison).first()?;
    let title = comparison_title(w, comparison);
    if let Some(trend) = own_trend(comparison, quantity) {
        return Some(format!("{title}: {}", trend_clause(w, comparison, trend)));
    }
    let standing = standing(comparison, quantity)
        .map_or_else(String::new, |s| format!("; {}", standing_words(w, comparison, quantity, s)));
    Some(format!("{title}: {} {}{standing}", short_quantity_name(quantity), means(w, comparison, quantity)))
}

/// The title of a comparison: its factor and what it is restricted to.
pub(crate) fn comparison_title(w: &Wording<'_>, comparison: &Comparison) -> String {
    title(w, &comparison.factor, &comparison.only)
}

/// A standing in words.
pub(crate) fn standing_words(
    w: &Wording<'_>,
    comparison: &Comparison,
    quantity: Quantity,
    standing: Standing,
) -> String {
    match standing {
        Standing::Settled => "settled".to_owned(),
        Standing::Partly { settled, pairs } => format!("{settled} of {} settled", plural(pairs, "pair")),
        Standing::Same => "the same within the margin".to_owned(),
        Standing::Open => "not settled".to_owned(),
        Standing::Confounded => inseparable(w, confounding_columns(comparison, quantity)),
    }
}

/// Results named one by one beside the main one.
const MOST_RESULTS: usize = 3;

/// Results on further quantities: "Burn rate: Box stove above Rocket stove, 2.6 kg/h against 2.1 kg/h", a line each; the
/// quantities that are not settled by name.
pub(crate) fn other_results(w: &Wording<'_>, comparison: &Comparison, quantities: &[Quantity]) -> Vec<String> {
    let standing = |q: &Quantity| standing(comparison, *q);
    let is_result =
        |q: &&Quantity| matches!(standing(q), Some(Standing::Settled | Standing::Partly { .. } | Standing::Same));
    let (results, open): (Vec<&Quantity>, Vec<&Quantity>) =
        quantities.iter().filter(|q| standing(q).is_some()).partition(is_result);
    let mut lines: Vec<String> =
        results.iter().take(MOST_RESULTS).map(|q| format!("{}.", chart_title(w, comparison, **q))).collect();
    let names =
        |quantities: &[&Quantity]| list(&quantities.iter().map(|q| short_quantity_name(**q)).collect::<Vec<_>>());
    if results.len() > MOST_RESULTS {
        lines.push(format!("Further results on {}.", names(&results[MOST_RESULTS..])));
    }
    if !open.is_empty() {
        lines.push(format!("Not settled: {}.", names(&open)));
    }
    lines
}

/// "Rocket stove above Box stove": one clause a pair that is told apart.
pub(crate) fn settled_pairs(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity) -> Vec<String> {
    let pairs = standing::differences(comparison, quantity).into_iter();
    let settled = pairs.filter(|c| matches!(c.verdict, VerdictKind::Above | VerdictKind::Below));
    settled.map(|c| pair(w, c).2).collect()
}

/// The title of a chart of groups: what the verdicts on a quantity say together.
pub(crate) fn chart_title(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity) -> String {
    let label = capital(short_quantity_name(quantity));
    let contrasts = || comparison.contrasts.iter().filter(|c| c.quantity == quantity);
    let settled = contrasts().filter(|c| matches!(c.verdict, VerdictKind::Above | VerdictKind::Below));
    let widest = settled.max_by(|a, b| distance(comparison, a).total_cmp(&distance(comparison, b)));
    if let Some(contrast) = widest {
        return format!("{label}: {}", widest_difference(w, comparison, contrast));
    }
    let factor = w.column(&comparison.factor);
    if standing(comparison, quantity) == Some(Standing::Confounded) {
        let columns = confounding_columns(comparison, quantity);
        return format!("{label}: {factor} {}", inseparable(w, columns));
    }
    if let Some(trend) = own_trend(comparison, quantity) {
        let way = if trend.estimate.value > 0.0 { "rises" } else { "falls" };
        let open = format!("{label}: no sign that it follows {factor}");
        return if trend.follows() { format!("{label} {way} with {factor}") } else { open };
    }
    if contrasts().next().is_none() {
        return format!("{label} by {factor}");
    }
    if contrasts().all(|c| c.verdict == VerdictKind::Equivalent) {
        return format!("{label}: the same within the stated margin");
    }
    format!("{label}: these trials settle no difference")
}

/// "Rocket stove above Box stove, 31 % against 19 %", "split fine above split coarse".
fn widest_difference(w: &Wording<'_>, comparison: &Comparison, contrast: &Contrast) -> String {
    let (first, second, words) = pair(w, contrast);
    let mean = |level: &str| group(comparison, contrast, level).map(|g| w.estimate(g.quantity, &g.mean).with_unit());
    match (mean(first), mean(second)) {
        (Some(x), Some(y)) => format!("{words}, {x} against {y}"),
        _ => words,
    }
}

/// The levels of a contrast that is told apart, the better one first where one is better, and "Rocket stove above Box stove".
fn pair<'c>(w: &Wording<'_>, contrast: &'c Contrast) -> (&'c str, &'c str, String) {
    let is_above = contrast.verdict == VerdictKind::Above;
    let turn = matches!((contrast.quantity.better(), is_above), (Better::Higher, false) | (Better::Lower, true));
    let (first, second, is_above) =
        if turn { (&contrast.b, &contrast.a, !is_above) } else { (&contrast.a, &contrast.b, is_above) };
    let name = |level: &str| w.level_of_factor(&contrast.factor, level);
    let words = format!("{} {} {}", name(first), if is_above { "above" } else { "below" }, name(second));
    (first, second, words)
}

/// Means by level, the best first.
fn means(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity) -> String {
    let groups = pick::best_first(comparison, quantity);
    let mean = |g: &&GroupResult| format!("{} {}", w.group(&g.levels), w.estimate(quantity, &g.mean).with_unit());
    let mut words: Vec<String> = groups.iter().take(NAMED).map(mean).collect();
    if groups.len() > NAMED {
        words.push(format!("{} more", groups.len() - NAMED));
    }
    words.join(", ")
}

/// "Thermal efficiency (net, credited) of Rocket stove: 31 % (95 % interval 29 to 33), from 3 trials." What is known of the
/// only level there is.
pub(crate) fn only_group(w: &Wording<'_>, group: &GroupResult) -> String {
    let shown = w.estimate(group.quantity, &group.mean);
    let rest = if group.is_one_trial() {
        "; how much trials differ is not known".to_owned()
    } else {
        format!(", from {}", plural(group.trials.len(), "trial"))
    };
    format!(
        "{} of {}: {} ({} interval {}){rest}.",
        capital(quantity_name(group.quantity)),
        w.group(&group.levels),
        shown.with_unit(),
        w.confidence(group.mean.interval.confidence),
        group_interval(w, group),
    )
}

/// The interval of a group's mean, "22.3 to 25.9"; of one trial, its own; one that holds every value says so.
pub(crate) fn group_interval(w: &Wording<'_>, group: &GroupResult) -> String {
    let interval = w.estimate(group.quantity, &group.mean).interval;
    match (group.is_open(), group.is_one_trial()) {
        (true, _) => format!("{interval}: nothing is known"),
        (false, true) => format!("{interval}, this trial alone"),
        (false, false) => interval,
    }
}

/// Distance between the two means of a contrast.
fn distance(comparison: &Comparison, contrast: &Contrast) -> f64 {
    let mean = |level: &str| group(comparison, contrast, level).map_or(f64::NAN, |g| g.mean.value);
    let distance = (mean(&contrast.a) - mean(&contrast.b)).abs();
    if distance.is_nan() { 0.0 } else { distance }
}

fn group<'a>(comparison: &'a Comparison, contrast: &Contrast, level: &str) -> Option<&'a GroupResult> {
    pick::groups(comparison, contrast.quantity).into_iter().find(|g| pick::single_level(g) == Some(level))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    fn line(comparison: &Comparison) -> String {
        comparison_line(&Wording::plain(), comparison).unwrap()
    }

    #[test]
    fn the_line_says_no_more_than_the_verdicts() {
        let mut comparison = fixture::analysis().comparisons.remove(0);
        assert_eq!(
            line(&comparison),
            "stove: thermal efficiency rocket 31.0 %, batch <XL> & long name 27 %, box 18.9 %; 2 of 3 pairs settled"
        );
        let ends = [
            (VerdictKind::Above, "; settled"),
            (VerdictKind::NoConclusion, "; not settled"),
            (VerdictKind::Equivalent, "; the same within the margin"),
        ];
        for (verdict, end) in ends {
            comparison.contrasts.iter_mut().for_each(|c| c.verdict = verdict);
            assert!(line(&comparison).ends_with(end), "{}", line(&comparison));
        }
        comparison.contrasts.clear();
        assert!(line(&comparison).ends_with("box 18.9 %"));
    }

    #[test]
    fn other_results_have_winner_and_numbers() {
        let comparison = fixture::analysis().comparisons.remove(0);
        let quantities = crate::pick::quantities(&comparison);
        let lines = other_results(&Wording::plain(), &comparison, &quantities[1..]);
        assert_eq!(lines[0], "Fuel per kWh of heat: rocket below box, 0.75 kg/kWh against 1.23 kg/kWh.");
        let mut open = comparison;
        open.contrasts.iter_mut().for_each(|c| c.verdict = VerdictKind::NoConclusion);
        let lines = other_results(&Wording::plain(), &open, &quantities[1..3]);
        assert_eq!(lines, ["Not settled: fuel per kWh of heat and time for the reference job."]);
    }

    #[test]
    fn the_title_names_the_better_level_first() {
        let analysis = fixture::analysis();
        let title = |q| chart_title(&Wording::plain(), &analysis.comparisons[0], q);
        assert_eq!(title(Quantity::ThermalEfficiency), "Thermal efficiency: rocket above box, 31.0 % against 18.9 %");
        assert_eq!(
            title(Quantity::FuelPerHeat),
            "Fuel per kWh of heat: rocket below box, 0.75 kg/kWh against 1.23 kg/kWh"
        );
    }

    #[test]
    fn a_title_claims_no_more_than_the_verdicts() {
        let mut analysis = fixture::analysis();
        analysis.comparisons[0].contrasts.iter_mut().for_each(|c| c.verdict = VerdictKind::NoConclusion);
        let title = |analysis: &calefact_analysis::Analysis| {
            chart_title(&Wording::plain(), &analysis.comparisons[0], Quantity::ThermalEfficiency)
        };
        assert_eq!(title(&analysis), "Thermal efficiency: these trials settle no difference");
        analysis.comparisons[0].contrasts.clear();
        assert_eq!(title(&analysis), "Thermal efficiency by `stove`");
    }
}
