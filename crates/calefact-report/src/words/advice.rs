//! Advice on what would narrow the intervals of a comparison.

use super::comparison_finding::{noun, origin, title};
use super::confounding::Together;
use super::quantity::quantity_in_sentence;
use super::{Wording, capital, choice};
use calefact_analysis::result::{Advice, Cross, LargestSource, Narrow, RepeatBenefit, Subject};

/// A piece of advice as a sentence.
pub(crate) fn advice(w: &Wording<'_>, advice: &Advice) -> String {
    match advice {
        Advice::Narrow(narrow) => narrow_words(w, narrow),
        Advice::Cross(cross) => cross_words(w, cross),
        Advice::Negligible { quantity, subject, instruments } => {
            let names: Vec<String> = instruments.iter().map(|i| origin(w, i)).collect();
            format!(
                "A smaller error of {} would not narrow {} noticeably ({}).",
                choice(&names),
                intervals(*subject),
                quantity_in_sentence(*quantity)
            )
        }
    }
}

/// Levels that must be tried with other levels of the columns that change together with them.
pub(super) fn cross_words(w: &Wording<'_>, cross: &Cross) -> String {
    let Cross { factor, only, kind, a, b, columns } = cross;
    let together = Together { factor, a, b, columns };
    format!(
        "{}: more {}s of the same sort and better instruments do not help, because {}; {}.",
        capital(&title(w, factor, only)),
        noun(*kind),
        together.clause(w),
        together.crossed(w, noun(*kind))
    )
}

/// Whose intervals advice is about.
const fn intervals(subject: Subject) -> &'static str {
    match subject {
        Subject::Difference => "the interval of the difference",
        Subject::Differences => "the intervals of the differences",
        Subject::Trend => "the interval of the trend",
        Subject::Means => "the intervals of the means",
    }
}

fn narrow_words(w: &Wording<'_>, narrow: &Narrow) -> String {
    let trials = format!("{}s", noun(narrow.kind));
    let title = capital(&title(w, &narrow.factor, &narrow.only));
    let name = quantity_in_sentence(narrow.quantity);
    let scatter = narrow.scatter.map_or_else(String::new, |share| {
        format!(" (scatter between {trials} is {} of the variance)", w.percent(share))
    });
    let repeats = match narrow.repeats {
        RepeatBenefit::Unknown => format!(
            "repeat a {} first, because without repeats the scatter between {trials} is unknown and missing from every interval",
            noun(narrow.kind)
        ),
        RepeatBenefit::Only => format!("only more {trials} help"),
        RepeatBenefit::Most => format!("more {trials} help most"),
        RepeatBenefit::Some => format!("more {trials} help"),
        RepeatBenefit::Little => format!("more {trials} would hardly help"),
    };
    let largest = narrow.largest.as_ref().map_or_else(String::new, |source| largest_words(w, source, narrow.subject));
    format!("{title}, {name}: {repeats}{scatter}{largest}.")
}

/// What halving the largest shared error would bring.
fn largest_words(w: &Wording<'_>, largest: &LargestSource, subject: Subject) -> String {
    format!(
        "; half the error of {} ({} of the variance) would make {} {} narrower",
        origin(w, &largest.origin),
        w.percent(largest.share),
        intervals(subject),
        w.percent(largest.narrower)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_analysis::Quantity;
    use calefact_analysis::fact::ErrorSource;
    use calefact_analysis::result::ErrorOrigin;
    use calefact_data::TrialKind;
    use std::collections::BTreeMap;

    fn narrow(scatter: Option<f64>, repeats: RepeatBenefit, largest: Option<LargestSource>) -> String {
        let (factor, only, kind) = ("fuel".to_owned(), BTreeMap::new(), TrialKind::Burn);
        let (quantity, subject) = (Quantity::ThermalEfficiency, Subject::Difference);
        let narrow = Narrow { factor, only, kind, quantity, subject, scatter, repeats, largest };
        advice(&Wording::plain(), &Advice::Narrow(narrow))
    }

    #[test]
    fn advice_says_how_much_more_burns_help() {
        let origin = ErrorOrigin::Input(ErrorSource::CalorificValue { fuel: "pine".into() });
        let largest = LargestSource { origin, share: 0.49, narrower: 0.2 };
        assert_eq!(
            narrow(Some(0.03), RepeatBenefit::Little, Some(largest)),
            "Fuel, thermal efficiency: more burns would hardly help (scatter between burns is 3 % of the variance); half the error \
             of the calorific value of pine (49 % of the variance) would make the interval of the difference 20 % narrower."
        );
        for (repeats, words) in [
            (RepeatBenefit::Only, "only more burns help"),
            (RepeatBenefit::Most, "more burns help most"),
            (RepeatBenefit::Some, "more burns help"),
        ] {
            let wanted = format!("Fuel, thermal efficiency: {words} (scatter between burns is 70 % of the variance).");
            assert_eq!(narrow(Some(0.7), repeats, None), wanted);
        }
        assert_eq!(
            narrow(None, RepeatBenefit::Unknown, None),
            "Fuel, thermal efficiency: repeat a burn first, because without repeats the scatter between burns is unknown and \
             missing from every interval."
        );
    }

    #[test]
    fn instruments_that_do_not_matter_are_named() {
        let instruments = ["scale", "tank_probe"].map(|id| ErrorOrigin::Instrument(id.into())).to_vec();
        assert_eq!(
            advice(
                &Wording::plain(),
                &Advice::Negligible {
                    quantity: Quantity::ThermalEfficiency,
                    subject: Subject::Differences,
                    instruments
                }
            ),
            "A smaller error of scale or tank_probe would not narrow the intervals of the differences noticeably (thermal efficiency)."
        );
    }
}
