//! Remarks on a comparison: its design, its model, odd and excluded trials, interactions.

use super::comparison_finding::noun;
use super::quantity::{quantity_in_sentence, short_quantity_name};
use super::verdict::verdict_word;
use super::{Wording, list, plural, sentence};
use calefact_analysis::Quantity;
use calefact_analysis::result::{
    Comparison, Confounded, Effect, Excluded, FitFailure, Interaction, MeanChange, NoAdjustment, OddTrial, Remark,
    Uneven, UnevenCondition, VerdictChange,
};

/// Trials named in one remark before they are counted only.
const MOST_NAMED: usize = 6;

/// A remark on a comparison as a sentence.
pub(crate) fn remark(w: &Wording<'_>, comparison: &Comparison, remark: &Remark) -> String {
    let noun = noun(comparison.kind);
    sentence(&match remark {
        Remark::TooFewLevels { factor, levels: 0 } => {
            format!("no usable {noun} says its {}, so there is nothing to compare", w.bare_column(factor))
        }
        Remark::TooFewLevels { factor, levels } => {
            format!("{} has {} here, so there is nothing to compare", w.column(factor), plural(*levels, "level"))
        }
        Remark::BeyondPlan { factor, planned, left_out } => format!(
            "{} beyond the planned {planned} of each level of {} {} left out of this comparison, whose verdict was due then",
            plural(*left_out, noun),
            w.column(factor),
            if *left_out == 1 { "is" } else { "are" }
        ),
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
        Remark::Uneven(found) => uneven(w, noun, found),
        Remark::UnevenCondition(found) => uneven_condition(w, found),
        Remark::FewReadings { quantities, few, of } => few_readings(noun, quantities, *few, *of),
        Remark::OneSided { quantity, trials } => one_sided(noun, *quantity, trials),
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
        Remark::InteractionUntested { quantity, factor, other, combinations, most } => format!(
            "it is not tested whether the difference in {} between levels of {} depends on {}: their levels make {combinations} \
             combinations, and up to {most} are tested",
            quantity_in_sentence(*quantity),
            w.column(factor),
            w.column(other)
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

/// A remark on a comparison in one line: of an odd trial how many quantities are odd, and not each of them.
pub(crate) fn brief_remark(w: &Wording<'_>, comparison: &Comparison, found: &Remark) -> String {
    match found {
        Remark::OddTrial(odd) if odd.distances.len() > 1 => {
            let noun = noun(comparison.kind);
            let note = odd.note.as_ref().map_or_else(String::new, |note| format!(" (note: {note})"));
            let count = odd.distances.len();
            sentence(&format!("{noun} {}{note} is far from the others in {count} quantities; it is kept", odd.trial))
        }
        _ => remark(w, comparison, found),
    }
}

/// "2 of 6 burns have few readings, the others a logger's: heating rate and coil power rest on slopes between readings in the
/// few, and their mean on both".
fn few_readings(noun: &str, quantities: &[Quantity], few: usize, of: usize) -> String {
    let names: Vec<&str> = quantities.iter().map(|q| short_quantity_name(*q)).collect();
    format!(
        "{few} of {} {} few readings, the others a logger's: {} of the few {} on slopes between readings, of the others on fits, \
         and a mean on both; its interval holds what few readings leave open",
        plural(of, noun),
        if few == 1 { "has" } else { "have" },
        list(&names),
        if names.len() == 1 { "rests" } else { "rest" }
    )
}

fn one_sided(noun: &str, quantity: Quantity, trials: &[String]) -> String {
    format!(
        "{} cannot be given for {noun}{} {}, where the effectiveness came out as high as it can be: the mean of the others is too low",
        quantity_in_sentence(quantity),
        if trials.len() == 1 { "" } else { "s" },
        list(trials)
    )
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
        NoAdjustment::TooLarge { effects, most } => {
            format!("its columns have {effects} levels and numbers to estimate, and a model takes {most} at most")
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

/// "fuel pine was used in 12 of 16 burns of Box stove but in 3 of 15 of Rocket stove; ...".
fn uneven(w: &Wording<'_>, noun: &str, found: &Uneven) -> String {
    let Uneven { factor, a, b, column, level, of_a, of_b, distance } = found;
    let what = if level.is_empty() {
        format!("no {}", w.bare_column(column))
    } else {
        format!("{} {}", w.bare_column(column), w.level(column, level))
    };
    format!(
        "{what} was in {} of {} of {} but in {} of {} of {}; {} of any effect of {} is in the difference between them",
        of_a.0,
        plural(of_a.1, noun),
        w.level_of_factor(factor, a),
        of_b.0,
        of_b.1,
        w.level_of_factor(factor, b),
        w.percent(*distance),
        w.bare_column(column)
    )
}

/// "start temperature differs between Box stove (11.9 degC on average) and Rocket stove (16.4 degC) by 2.1 standard deviations; ...".
fn uneven_condition(w: &Wording<'_>, found: &UnevenCondition) -> String {
    let UnevenCondition { factor, a, b, condition, means, standardised } = found;
    let value = |x: f64| match condition.as_str() {
        "start_temperature" | "air_temperature" => w.temperature(x, 1),
        "fuel_moisture" => w.share(x),
        _ => w.typography.significant(x, 3),
    };
    let distance = if standardised.is_finite() {
        format!("by {} standard deviations", w.typography.significant(*standardised, 2))
    } else {
        "and does not vary within them".to_owned()
    };
    format!(
        "{} differs between {} ({} on average) and {} ({}) {distance}; an effect of it is in the difference between them, \
         unless the comparison names it under {}",
        condition.replace('_', " "),
        w.level_of_factor(factor, a),
        value(means.0),
        w.level_of_factor(factor, b),
        value(means.1),
        w.column("covariates")
    )
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
mod tests;
