//! The title of a chart of groups: what the verdicts say of it, in words. No verdict is made here.

use crate::readable::Readable;
use crate::{one_line, pick};
use calefact_analysis::result::{Comparison, Contrast, GroupResult, VerdictKind};
use calefact_analysis::{Better, Quantity};

/// Title of a quantity of a comparison.
pub(super) fn of(comparison: &Comparison, quantity: Quantity) -> String {
    let label = capital(short(quantity));
    let contrasts = || comparison.contrasts.iter().filter(|c| c.quantity == quantity);
    let settled = contrasts().filter(|c| matches!(c.verdict, VerdictKind::Above | VerdictKind::Below));
    let widest = settled.max_by(|a, b| apart(comparison, a).total_cmp(&apart(comparison, b)));
    if let Some(contrast) = widest {
        return settled_words(comparison, contrast, &label);
    }
    if let Some(trend) = one_line::own_trend(comparison, quantity) {
        let way = if trend.estimate.value > 0.0 { "rises" } else { "falls" };
        return if one_line::follows(trend) {
            format!("{label} {way} with {}", comparison.factor)
        } else {
            format!("{label}: no sign that it follows {}", comparison.factor)
        };
    }
    if contrasts().next().is_none() {
        return format!("{label} by {}", comparison.factor);
    }
    if contrasts().all(|c| c.verdict == VerdictKind::Equivalent) {
        return format!("{label}: the same within the stated margin");
    }
    format!("{label}: the trials made do not settle a difference")
}

/// Label without its bracket: "thermal efficiency".
pub(crate) fn short(quantity: Quantity) -> &'static str {
    let label = quantity.label();
    label.split_once(" (").map_or(label, |(words, _)| words)
}

/// First letter in upper case.
pub(crate) fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}

/// First letter in lower case.
pub(crate) fn small(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_lowercase().chain(chars).collect())
}

/// "Thermal efficiency: rocket above box, 31 % against 19 %", the better level first where one is better.
fn settled_words(comparison: &Comparison, contrast: &Contrast, label: &str) -> String {
    let above = contrast.verdict == VerdictKind::Above;
    let turn = matches!((contrast.quantity.better(), above), (Better::Higher, false) | (Better::Lower, true));
    let (first, second, above) =
        if turn { (&contrast.b, &contrast.a, !above) } else { (&contrast.a, &contrast.b, above) };
    let word = if above { "above" } else { "below" };
    let mean = |level: &str| {
        group(comparison, contrast, level).map(|g| Readable::of_estimate(g.quantity, &g.mean).show(&g.mean))
    };
    match (mean(first), mean(second)) {
        (Some(x), Some(y)) => format!("{label}: {first} {word} {second}, {} against {}", x.with_unit(), y.with_unit()),
        _ => format!("{label}: {first} {word} {second}"),
    }
}

/// Distance between the two means of a contrast.
fn apart(comparison: &Comparison, contrast: &Contrast) -> f64 {
    let mean = |level: &str| group(comparison, contrast, level).map_or(f64::NAN, |g| g.mean.value);
    let distance = (mean(&contrast.a) - mean(&contrast.b)).abs();
    if distance.is_nan() { 0.0 } else { distance }
}

fn group<'a>(comparison: &'a Comparison, contrast: &Contrast, level: &str) -> Option<&'a GroupResult> {
    pick::groups(comparison, contrast.quantity).into_iter().find(|g| g.levels.len() == 1 && g.levels[0].1 == level)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn the_title_names_the_better_level_first() {
        let analysis = fixture::analysis();
        let title = |q| of(&analysis.comparisons[0], q).replace('\u{a0}', " ");
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
        assert!(of(&analysis.comparisons[0], Quantity::ThermalEfficiency).ends_with("do not settle a difference"));
        analysis.comparisons[0].contrasts.clear();
        assert_eq!(of(&analysis.comparisons[0], Quantity::ThermalEfficiency), "Thermal efficiency by stove");
    }
}
