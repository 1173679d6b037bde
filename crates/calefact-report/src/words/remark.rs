//! Remarks on a comparison: its design, its model, odd and excluded trials, interactions.

use super::comparison_finding::noun;
use super::quantity::quantity_in_sentence;
use super::verdict::verdict_word;
use super::{Wording, list, plural, sentence};
use calefact_analysis::result::{
    Comparison, Confounded, Effect, Excluded, FitFailure, Interaction, MeanChange, NoAdjustment, OddTrial, Remark,
    VerdictChange,
};

/// Trials named in one remark before they are counted only.
const MOST_NAMED: usize = 6;

/// A remark on a comparison as a sentence.
pub(crate) fn remark(w: &Wording<'_>, comparison: &Comparison, remark: &Remark) -> String {
    let noun = noun(comparison.kind);
    sentence(&match remark {
        Remark::TooFewLevels { factor, levels } => {
            format!("{} has {} here, so there is nothing to compare", w.column(factor), plural(*levels, "level"))
        }
        Remark::TriedOnce { factor, levels, adjusted } => tried_once(w, factor, levels, *adjusted),
        Remark::ColumnEmpty(column) => {
            format!("no {noun} has a value of {}, so nothing is adjusted for it", w.column(column))
        }
        Remark::Incomplete { factor, left_out, of } => format!(
            "{left_out} of {} left out of the comparison of {}, because a column it is adjusted for is blank",
            plural(*of, noun),
            w.column(factor)
        ),
        Remark::NotAdjusted { factor, held, reason } => not_adjusted(w, noun, (factor, held), reason),
        Remark::Confounded(effects) => confounded(w, effects),
        Remark::NoFit { quantity, reason } => {
            format!("{} is compared without adjustment: {}", quantity_in_sentence(*quantity), failure(noun, *reason))
        }
        Remark::BlockLeftOut { quantity, block } => format!(
            "{}: the variance between levels of {block} did not settle, so {block} is left out of the model",
            quantity_in_sentence(*quantity),
            block = w.column(block)
        ),
        Remark::Interaction(found) => format!(
            "caution: the difference in {}; the comparison averages over {other}, so compare within each level of {other} \
             too",
            depends(w, found),
            other = w.column(&found.other)
        ),
        Remark::OddTrial(odd) => odd_trial(w, noun, odd),
        Remark::MoreOddTrials(more) => {
            let verb = if *more == 1 { "is" } else { "are" };
            format!("{} {verb} far from the others", plural(*more, &format!("more {noun}")))
        }
        Remark::Fragile { trials, change } => format!("without {} {}", any_of(trials, noun), verdict_change(w, change)),
        Remark::NoVerdictChanges(trial) => format!("without {noun} {trial} no verdict would change"),
        Remark::MoreFragile(more) => {
            let verb = if *more == 1 { "depends" } else { "depend" };
            format!("{} {verb} on single {noun}s", plural(*more, "more verdict"))
        }
        Remark::Excluded(found) => excluded(w, noun, found),
    })
}

/// An interaction that was looked for and not found, as a sentence.
pub(crate) fn no_interaction(w: &Wording<'_>, tested: &Interaction) -> String {
    format!("No sign that the difference in {}.", depends(w, tested))
}

fn tried_once(w: &Wording<'_>, factor: &str, levels: &[String], adjusted: bool) -> String {
    let names: Vec<String> = levels.iter().map(|level| w.level_of_factor(factor, level)).collect();
    let (verb, scatter) = if levels.len() == 1 { ("was", "its scatter") } else { ("were", "their scatter") };
    let each = if levels.len() == 1 { "" } else { " each" };
    let consequence = match (adjusted, levels.len()) {
        (true, _) => "is taken from the other levels",
        (false, 1) => "is unknown, so no test includes it",
        (false, _) => "is unknown, so no test includes them",
    };
    format!("{} {verb} tried only once{each}: {scatter} {consequence}", list(&names))
}

fn not_adjusted(w: &Wording<'_>, noun: &str, (factor, held): (&str, &[String]), reason: &NoAdjustment) -> String {
    let columns: Vec<String> = held.iter().map(|column| w.column(column)).collect();
    let held = if columns.is_empty() { String::new() } else { format!(" for {}", list(&columns)) };
    let reason = match reason {
        NoAdjustment::TooManyEffects { trials, effects } => {
            format!("{} are too few to estimate {effects} effects and a scatter", plural(*trials, noun))
        }
        NoAdjustment::Confounded(effects) => confounded(w, effects),
        NoAdjustment::NoDesign => "its columns make no valid model".to_owned(),
        NoAdjustment::NotEstimable(quantity) => {
            format!("the model cannot estimate the {} of every level", quantity_in_sentence(*quantity))
        }
    };
    format!("the comparison of {} is not adjusted{held}: {reason}", w.column(factor))
}

fn confounded(w: &Wording<'_>, effects: &[Confounded]) -> String {
    let name = |effect: &Effect| match &effect.level {
        Some(level) => w.level_of_factor(&effect.column, level),
        None => w.column(&effect.column),
    };
    let words = |c: &Confounded| {
        let others: Vec<String> = c.with.iter().map(name).collect();
        match others[..] {
            [] => format!("no trial has {}", name(&c.effect)),
            _ => format!(
                "{} cannot be told apart from {}, because they always change together",
                name(&c.effect),
                list(&others)
            ),
        }
    };
    effects.iter().map(words).collect::<Vec<_>>().join("; ")
}

fn failure(noun: &str, failure: FitFailure) -> String {
    match failure {
        FitFailure::EffectsNotEstimable => format!("these {noun}s cannot tell all effects apart"),
        FitFailure::NoScatter => format!("these {noun}s leave no scatter about the model"),
        FitFailure::NotConverged => "the variances of the model did not settle".to_owned(),
    }
}

/// "thermal efficiency between levels of stove depends on fuel (F = 9.12, 1 and 12 degrees of freedom, p = 0.011)".
fn depends(w: &Wording<'_>, tested: &Interaction) -> String {
    let number = |x: f64| w.typography.significant(x, 3);
    format!(
        "{} between levels of {} depends on {} (F = {}, {} and {} degrees of freedom, {})",
        quantity_in_sentence(tested.quantity),
        w.column(&tested.factor),
        w.column(&tested.other),
        number(tested.f),
        number(tested.numerator_dof),
        number(tested.denominator_dof),
        w.p_equals(tested.p_value)
    )
}

fn odd_trial(w: &Wording<'_>, noun: &str, odd: &OddTrial) -> String {
    let note = odd.note.as_ref().map_or_else(String::new, |note| format!(" (note: {note})"));
    let distance = |(quantity, distance): &(calefact_analysis::Quantity, f64)| {
        let side = if *distance > 0.0 { "above" } else { "below" };
        format!(
            "{} is {} standard deviations {side}",
            quantity_in_sentence(*quantity),
            w.typography.significant(distance.abs(), 2)
        )
    };
    let distances: Vec<String> = odd.distances.iter().map(distance).collect();
    format!(
        "{noun} {}{note} is far from the others: {} the value expected from them ({}, adjusted for {}); it is kept",
        odd.trial,
        list(&distances),
        w.p_equals(odd.p_value),
        plural(odd.among, noun)
    )
}

/// "burn b1", "either b1 or b2", "any one of b1, b2 and b3", "any one of 9 burns".
fn any_of(trials: &[String], noun: &str) -> String {
    match trials {
        [single] => format!("{noun} {single}"),
        [a, b] => format!("either {a} or {b}"),
        few if few.len() <= MOST_NAMED => format!("any one of {}", list(few)),
        many => format!("any one of {}", plural(many.len(), noun)),
    }
}

/// "the verdict on thermal efficiency, Box stove against Rocket stove, would change from no conclusion to lower".
fn verdict_change(w: &Wording<'_>, change: &VerdictChange) -> String {
    format!(
        "the verdict on {}, {} against {}, would change from {} to {}",
        quantity_in_sentence(change.quantity),
        w.level_of_factor(&change.factor, &change.a),
        w.level_of_factor(&change.factor, &change.b),
        verdict_word(change.from),
        verdict_word(change.to)
    )
}

fn excluded(w: &Wording<'_>, noun: &str, found: &Excluded) -> String {
    let named = found.trials.iter().take(MOST_NAMED).map(|(trial, reason)| format!("{trial} ({reason})"));
    let mut named: Vec<String> = named.collect();
    if found.trials.len() > named.len() {
        named.push(format!("{} more", found.trials.len() - named.len()));
    }
    let (verb, them) = if found.trials.len() == 1 { ("is", "it") } else { ("are", "them") };
    let changes: Vec<String> = found.changes.iter().map(|c| verdict_change(w, c)).collect();
    let changes = if changes.is_empty() { "no verdict would change".to_owned() } else { changes.join("; ") };
    let largest = found.largest.as_ref().map_or_else(String::new, |change| mean_change(w, change));
    format!(
        "{} {verb} left out: {}. With {them} put back {changes}{largest}",
        plural(found.trials.len(), noun),
        list(&named)
    )
}

fn mean_change(w: &Wording<'_>, change: &MeanChange) -> String {
    // One significant digit of the change is enough, as of an uncertainty.
    let precision = 10.0 * (change.to - change.from).abs();
    format!(
        "; the mean that changes most is the {} of {}: {} instead of {}",
        quantity_in_sentence(change.quantity),
        w.level_of_factor(&change.factor, &change.level),
        w.quantity(change.quantity, change.to, precision),
        w.quantity(change.quantity, change.from, precision)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_analysis::Quantity;
    use calefact_analysis::result::VerdictKind;
    use calefact_data::TrialKind;
    use std::collections::BTreeMap;

    const Q: Quantity = Quantity::ThermalEfficiency;

    fn words(fact: &Remark) -> String {
        let comparison = Comparison {
            factor: "stove".into(),
            kind: TrialKind::Burn,
            only: BTreeMap::new(),
            levels: vec![],
            groups: vec![],
            contrasts: vec![],
            balances: vec![],
            trends: vec![],
            remarks: vec![],
            reassurances: vec![],
        };
        remark(&Wording::plain(), &comparison, fact)
    }

    fn change(to: VerdictKind) -> VerdictChange {
        let (factor, a, b) = ("stove".into(), "box".into(), "rocket".into());
        VerdictChange { quantity: Q, factor, a, b, from: VerdictKind::NoConclusion, to }
    }

    fn effect(column: &str, level: &str) -> Effect {
        Effect { column: column.into(), level: Some(level.into()) }
    }

    fn not_adjusted(reason: NoAdjustment) -> Remark {
        Remark::NotAdjusted { factor: "stove".into(), held: vec!["fuel".into()], reason }
    }

    #[test]
    fn remarks_on_the_design() {
        let tried = |levels: &[&str], adjusted| Remark::TriedOnce {
            factor: "stove".into(),
            levels: levels.iter().map(|l| (*l).to_owned()).collect(),
            adjusted,
        };
        let confounded = Confounded { effect: effect("split", "fine"), with: vec![effect("stove", "rocket")] };
        let alone = Confounded { effect: Effect { column: "age".into(), level: None }, with: vec![] };
        let table = [
            (
                Remark::TooFewLevels { factor: "stove".into(), levels: 1 },
                "`stove` has 1 level here, so there is nothing to compare.",
            ),
            (tried(&["box"], true), "Box was tried only once: its scatter is taken from the other levels."),
            (
                tried(&["a", "b"], false),
                "A and b were tried only once each: their scatter is unknown, so no test includes them.",
            ),
            (
                Remark::ColumnEmpty("air_temperature".into()),
                "No burn has a value of `air_temperature`, so nothing is adjusted for it.",
            ),
            (
                Remark::Incomplete { factor: "stove".into(), left_out: 2, of: 9 },
                "2 of 9 burns left out of the comparison of `stove`, because a column it is adjusted for is blank.",
            ),
            (
                not_adjusted(NoAdjustment::TooManyEffects { trials: 4, effects: 5 }),
                "The comparison of `stove` is not adjusted for `fuel`: 4 burns are too few to estimate 5 effects and a scatter.",
            ),
            (
                not_adjusted(NoAdjustment::Confounded(vec![confounded.clone()])),
                "The comparison of `stove` is not adjusted for `fuel`: split fine cannot be told apart from rocket, because they \
                 always change together.",
            ),
            (
                not_adjusted(NoAdjustment::NoDesign),
                "The comparison of `stove` is not adjusted for `fuel`: its columns make no valid model.",
            ),
            (
                not_adjusted(NoAdjustment::NotEstimable(Q)),
                "The comparison of `stove` is not adjusted for `fuel`: the model cannot estimate the thermal efficiency of every level.",
            ),
            (
                Remark::Confounded(vec![confounded, alone]),
                "Split fine cannot be told apart from rocket, because they always change together; no trial has `age`.",
            ),
        ];
        for (fact, wanted) in table {
            assert_eq!(words(&fact), wanted);
        }
    }

    #[test]
    fn remarks_on_the_model() {
        let interaction = Interaction {
            quantity: Q,
            factor: "stove".into(),
            other: "fuel".into(),
            f: 9.1234,
            numerator_dof: 1.0,
            denominator_dof: 12.0,
            p_value: 0.0107,
        };
        let figures = "(F = 9.12, 1 and 12 degrees of freedom, p = 0.011)";
        assert_eq!(
            no_interaction(&Wording::plain(), &interaction),
            format!(
                "No sign that the difference in thermal efficiency between levels of `stove` depends on `fuel` {figures}."
            )
        );
        assert_eq!(
            words(&Remark::Interaction(interaction)),
            format!(
                "Caution: the difference in thermal efficiency between levels of `stove` depends on `fuel` {figures}; the comparison \
                 averages over `fuel`, so compare within each level of `fuel` too."
            )
        );
        let failed = |reason| words(&Remark::NoFit { quantity: Q, reason });
        assert_eq!(
            [failed(FitFailure::EffectsNotEstimable), failed(FitFailure::NoScatter), failed(FitFailure::NotConverged)],
            [
                "Thermal efficiency is compared without adjustment: these burns cannot tell all effects apart.",
                "Thermal efficiency is compared without adjustment: these burns leave no scatter about the model.",
                "Thermal efficiency is compared without adjustment: the variances of the model did not settle.",
            ]
        );
        assert_eq!(
            words(&Remark::BlockLeftOut { quantity: Q, block: "day".into() }),
            "Thermal efficiency: the variance between levels of `day` did not settle, so `day` is left out of the model."
        );
    }

    #[test]
    fn remarks_on_single_trials() {
        let odd = OddTrial {
            trial: "b17".into(),
            note: Some("door open".into()),
            distances: vec![(Q, -13.21), (Quantity::BurnRate, 4.0)],
            p_value: 1e-6,
            among: 17,
        };
        let fragile = |trials: &[&str]| Remark::Fragile {
            trials: trials.iter().map(|t| (*t).to_owned()).collect(),
            change: change(VerdictKind::Below),
        };
        let verdict =
            "the verdict on thermal efficiency, box against rocket, would change from no conclusion to lower.";
        let table = [
            (
                Remark::OddTrial(odd),
                "Burn b17 (note: door open) is far from the others: thermal efficiency is 13 standard deviations below and burn rate \
                 is 4 standard deviations above the value expected from them (p < 0.001, adjusted for 17 burns); it is kept."
                    .to_owned(),
            ),
            (fragile(&["b1"]), format!("Without burn b1 {verdict}")),
            (fragile(&["b1", "b2"]), format!("Without either b1 or b2 {verdict}")),
            (fragile(&["b1", "b2", "b3"]), format!("Without any one of b1, b2 and b3 {verdict}")),
            (fragile(&["b"; 7]), format!("Without any one of 7 burns {verdict}")),
            (Remark::NoVerdictChanges("b17".into()), "Without burn b17 no verdict would change.".to_owned()),
            (Remark::MoreOddTrials(2), "2 more burns are far from the others.".to_owned()),
            (Remark::MoreOddTrials(1), "1 more burn is far from the others.".to_owned()),
            (Remark::MoreFragile(1), "1 more verdict depends on single burns.".to_owned()),
            (Remark::MoreFragile(3), "3 more verdicts depend on single burns.".to_owned()),
        ];
        for (fact, wanted) in table {
            assert_eq!(words(&fact), wanted);
        }
    }

    #[test]
    fn excluded_trials_are_named_with_what_they_would_change() {
        let trial = |id: usize| (format!("b{id}"), "door open".to_owned());
        let largest = MeanChange { quantity: Q, factor: "stove".into(), level: "rocket".into(), from: 0.36, to: 0.331 };
        let one =
            Excluded { trials: vec![trial(1)], changes: vec![change(VerdictKind::Below)], largest: Some(largest) };
        assert_eq!(
            words(&Remark::Excluded(one)),
            "1 burn is left out: b1 (door open). With it put back the verdict on thermal efficiency, box against rocket, would change \
             from no conclusion to lower; the mean that changes most is the thermal efficiency of rocket: 33 % instead of 36 %."
        );
        let many = Excluded { trials: (1..=8).map(trial).collect(), changes: vec![], largest: None };
        let many = words(&Remark::Excluded(many));
        assert!(
            many.starts_with("8 burns are left out: b1 (door open), ") && many.contains("b6 (door open) and 2 more. "),
            "{many}"
        );
        assert!(many.ends_with("With them put back no verdict would change."), "{many}");
    }
}
