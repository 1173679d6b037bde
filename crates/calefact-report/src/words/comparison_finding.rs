//! Findings about comparisons, and what all sentences about comparisons share: titles, kinds of trial, origins of errors.

use super::confounding::{Together, inseparable};
use super::message::Message;
use super::source::source;
use super::{Measure, Wording, gap, plural, quantity_name};
use calefact_analysis::fact::ComparisonFact;
use calefact_analysis::result::ErrorOrigin;
use calefact_data::{ApparatusKind, TrialKind};
use std::collections::BTreeMap;

/// A trial of this kind in a sentence: "burn".
pub(super) fn noun(kind: TrialKind) -> &'static str {
    if kind == TrialKind::Burn { "burn" } else { "trial" }
}

/// The title of a comparison, with its restriction: "stove, fuel spruce only".
pub(super) fn title(w: &Wording<'_>, factor: &str, only: &BTreeMap<String, String>) -> String {
    let only = only.iter().map(|(column, level)| format!("{} {} only", w.bare_column(column), w.level(column, level)));
    [w.bare_column(factor)].into_iter().chain(only).collect::<Vec<_>>().join(", ")
}

/// Where an error comes from: "Hanging scale", "the calorific value of spruce".
pub(super) fn origin(w: &Wording<'_>, origin: &ErrorOrigin) -> String {
    match origin {
        ErrorOrigin::Instrument(id) => w.apparatus(ApparatusKind::Instrument, id),
        ErrorOrigin::Input(input) => format!("the {}", source(w, input)),
    }
}

/// A finding about a comparison.
pub(super) fn message(w: &Wording<'_>, fact: &ComparisonFact) -> Message {
    let (text, action, hint) = match fact {
        ComparisonFact::Empty { factor, only, kind } => (
            format!(
                "the comparison of {} has no trial: no usable {} trial has a value in the column {}",
                title(w, factor, only),
                kind.name(),
                w.column(factor)
            ),
            None,
            "check the name of the factor against the columns of the register, and look at the findings of the trials",
        ),
        ComparisonFact::MainQuantityMissing { quantity, lacks, trials, replaced } => (
            format!(
                "{} could not be given: {} ({})",
                quantity_name(*quantity),
                gap::lacks(w, lacks),
                plural(*trials, "trial")
            ),
            replaced.then(|| "the next quantity takes its place".to_owned()),
            "the table `missing` lists for each trial what is lacking",
        ),
        ComparisonFact::Confounded { .. } => return confounded(w, fact),
        ComparisonFact::ManyLevels { factor, only, levels, most } => (
            format!(
                "the comparison of {} has {levels} levels; of up to {most} it is said how many more trials would settle each pair",
                title(w, factor, only)
            ),
            Some("every pair is compared, and no number of further trials is given".to_owned()),
            "choose the levels in question with `only` of a comparison of their own, or ask `plan`",
        ),
        ComparisonFact::TooManyLevels { factor, only, levels, most } => (
            format!(
                "the comparison of {} has {levels} levels; up to {most} are compared pair by pair",
                title(w, factor, only)
            ),
            Some("each level has its mean, no two are compared, and nothing is adjusted for".to_owned()),
            "write the levels in fewer groups in the register, or choose trials with `only` of the comparison",
        ),
        ComparisonFact::ConstantLossMisfit { vessel, .. } => (
            format!(
                "one constant-loss model does not fit the reference-heater trials of {}: {}",
                w.apparatus(ApparatusKind::Vessel, vessel),
                misfit(w, fact)
            ),
            Some("no loss coefficient is taken from these trials".to_owned()),
            "make a standing-loss trial: heat loss here is not in proportion to the excess over the air, as with an open lid that lets steam out or a heater that stores heat",
        ),
    };
    Message { text, action, hint: Some(hint.to_owned()) }
}

/// Levels that cannot be told apart from other columns.
fn confounded(w: &Wording<'_>, fact: &ComparisonFact) -> Message {
    let ComparisonFact::Confounded { factor, only, kind, pair, columns } = fact else { return Message::default() };
    let subject = format!("the comparison of {}", title(w, factor, only));
    let inseparable = inseparable(w, columns.iter().map(String::as_str));
    let action = Some(format!("no difference between levels of {} counts as settled", w.column(factor)));
    let Some(pair) = pair else {
        return Message {
            text: format!("{subject}: its trend {inseparable}, which changes together with it"),
            action: Some("the trend does not count as settled".to_owned()),
            hint: Some(format!("make {}s with other combinations of them", noun(*kind))),
        };
    };
    let together = Together { factor, a: &pair.a, b: &pair.b, columns: &pair.columns };
    let text = format!("{subject} {inseparable}: {}", together.clause(w));
    Message { text, action, hint: Some(together.crossed(w, noun(*kind))) }
}

/// What the constant-loss model would need: "the fit needs a heat capacity of 812.3 kJ/K, but ...".
fn misfit(w: &Wording<'_>, fact: &ComparisonFact) -> String {
    let ComparisonFact::ConstantLossMisfit {
        fitted_capacity,
        known_capacity,
        air_degc,
        loss_coefficient,
        residual_sd_w,
        ..
    } = fact
    else {
        return String::new();
    };
    format!(
        "the fit needs a heat capacity of {}, but water and vessel have {}; its air temperature is {}, its loss coefficient \
         {} and its residual standard deviation {}",
        heat_capacity(w, *fitted_capacity),
        heat_capacity(w, *known_capacity),
        w.temperature(*air_degc, 1),
        w.measure(Measure::Conductance, *loss_coefficient),
        w.typography.join(&w.typography.significant(*residual_sd_w, 2), "W")
    )
}

/// A heat capacity to four digits: two of them are to be told apart.
fn heat_capacity(w: &Wording<'_>, j_k: f64) -> String {
    let unit = w.unit(Measure::HeatCapacity);
    w.typography.join(&w.typography.significant(unit.value(j_k), 4), &unit.symbol)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Typography;
    use calefact_analysis::Quantity;
    use calefact_analysis::fact::Lack;

    #[test]
    fn a_title_names_the_restriction() {
        let only = BTreeMap::from([("fuel".to_owned(), "spruce".to_owned())]);
        assert_eq!(title(&Wording::plain(), "wood_split", &only), "wood_split, fuel spruce only");
        let page = Wording { typography: Typography::Page, ..Wording::plain() };
        assert_eq!(title(&page, "wood_split", &only), "wood split, fuel spruce only");
    }

    #[test]
    fn findings_say_what_is_missing_and_what_to_do() {
        let w = Wording::plain();
        let empty = ComparisonFact::Empty { factor: "stove".into(), only: BTreeMap::new(), kind: TrialKind::Burn };
        assert_eq!(
            message(&w, &empty).text,
            "the comparison of stove has no trial: no usable burn trial has a value in the column `stove`"
        );
        let missing = |replaced| ComparisonFact::MainQuantityMissing {
            quantity: Quantity::FlueLoss,
            lacks: vec![Lack::Composition],
            trials: 2,
            replaced,
        };
        assert_eq!(
            message(&w, &missing(true)).text,
            "flue loss (net) could not be given: the fuel has neither a composition nor a class (2 trials)"
        );
        assert_eq!(message(&w, &missing(true)).action.as_deref(), Some("the next quantity takes its place"));
        assert_eq!(message(&w, &missing(false)).action, None);
        let misfit = ComparisonFact::ConstantLossMisfit {
            vessel: "drum".into(),
            fitted_capacity: 812_345.6,
            known_capacity: 700_000.0,
            air_degc: 17.777_777_8,
            loss_coefficient: 5.4321,
            residual_sd_w: 42.123,
        };
        assert_eq!(
            message(&w, &misfit).text,
            "one constant-loss model does not fit the reference-heater trials of drum: the fit needs a heat capacity of 812.3 kJ/K, \
             but water and vessel have 700 kJ/K; its air temperature is 17.8 degC, its loss coefficient 5.43 W/K and its residual \
             standard deviation 42 W"
        );
    }
}
