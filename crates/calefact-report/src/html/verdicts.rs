//! Verdicts as sentences with a mark: settled, the same, open.

use super::grid::Text;
use crate::words::trend::trend as trend_words;
use crate::words::verdict::verdict;
use crate::words::{Wording, capital, short_quantity_name, standing_words};
use crate::{pick, standing};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Comparison, Contrast, Trend, VerdictKind};

/// A verdict.
pub(super) struct Sentence {
    /// CSS class: settled, same, open.
    pub(super) class: &'static str,
    /// The class in a word, for readers who do not see the mark.
    pub(super) word: &'static str,
    /// The sentence.
    pub(super) text: Text,
}

/// All verdicts on a quantity, folded away under a line.
pub(super) struct Fold {
    /// "Thermal efficiency: 2 of 3 pairs settled".
    pub(super) summary: Text,
    /// One sentence a pair.
    pub(super) sentences: Vec<Sentence>,
}

/// One fold a quantity, in the order of the comparison.
pub(super) fn folds(w: &Wording<'_>, comparison: &Comparison) -> Vec<Fold> {
    pick::quantities(comparison).into_iter().filter_map(|q| fold(w, comparison, q)).collect()
}

fn fold(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity) -> Option<Fold> {
    let trends = || comparison.trends.iter().filter(|t| t.quantity == quantity);
    let standing = match standing::standing(comparison, quantity) {
        Some(standing) => standing_words(standing),
        None if trends().next().is_some() => "trends".to_owned(),
        None => return None,
    };
    let mut pairs = standing::differences(comparison, quantity);
    pairs.sort_by_key(|c| c.verdict == VerdictKind::NoConclusion);
    let verdicts = pairs.into_iter().map(|c| contrast_sentence(w, comparison, c));
    Some(Fold {
        summary: format!("{}: {standing}", capital(short_quantity_name(quantity))),
        sentences: verdicts.chain(trends().map(|t| trend_sentence(w, comparison, t))).collect(),
    })
}

/// The sentence of a trend.
pub(super) fn trend_sentence(w: &Wording<'_>, comparison: &Comparison, trend: &Trend) -> Sentence {
    let (class, word) = if standing::follows(trend) { ("settled", "settled") } else { ("open", "not settled") };
    Sentence { class, word, text: trend_words(w, comparison, trend) }
}

/// The sentence of a contrast.
pub(super) fn contrast_sentence(w: &Wording<'_>, comparison: &Comparison, contrast: &Contrast) -> Sentence {
    let (class, word) = match contrast.verdict {
        VerdictKind::Above | VerdictKind::Below => ("settled", "settled"),
        VerdictKind::Equivalent => ("same", "the same within the margin"),
        VerdictKind::NoConclusion => ("open", "not settled"),
    };
    Sentence { class, word, text: verdict(w, comparison, contrast) }
}

/// A sentence as it stands on the page: a capital at the start, unless it is a trial's id, a full stop at the end, real
/// minus signs, units that stay with their numbers, and no quotes of the terminal.
pub(super) fn full(sentence: &str) -> Text {
    let plain = unquoted(sentence.trim()).replace(" degC", "\u{a0}°C");
    let id = plain.split(' ').next().is_some_and(|word| word.contains(|c: char| c.is_ascii_digit()));
    let text = set(&if id { plain } else { capital(&plain) });
    if text.is_empty() || text.ends_with(['.', '!', '?']) { text } else { text + "." }
}

/// Names of columns without their quotes, as words.
fn unquoted(text: &str) -> String {
    let part = |(i, part): (usize, &str)| if i % 2 == 1 { part.replace('_', " ") } else { part.to_owned() };
    text.split('`').enumerate().map(part).collect()
}

/// Minus signs and spaces that do not break, between a number and what follows it up to three letters.
fn set(text: &str) -> Text {
    let mut out = Text::with_capacity(text.len() + 8);
    for (i, word) in text.split(' ').enumerate() {
        let number = word.strip_prefix('-').filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
        let bare = word.trim_end_matches(['.', ',', ';', ':', ')']);
        let unit = bare == "%"
            || (bare.chars().count() <= 3 && bare.starts_with(|c: char| c.is_ascii_uppercase()))
            || ["kg", "min", "kW"].contains(&bare)
            || bare.contains('/');
        if i > 0 {
            out.push(if unit && out.ends_with(|c: char| c.is_ascii_digit()) { '\u{a0}' } else { ' ' });
        }
        match number {
            Some(rest) => out.extend(['−'].into_iter().chain(rest.chars())),
            None => out.push_str(word),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::full;

    #[test]
    fn a_sentence_is_set_for_the_page() {
        assert_eq!(full("`split` fine needs less: -2 to 3 kg"), "Split fine needs less: −2 to 3\u{a0}kg.");
        assert_eq!(full("`heater_power` 50 W of p_1"), "Heater power 50\u{a0}W of p_1.");
        assert_eq!(full("b17 is odd"), "b17 is odd.");
        assert_eq!(full("42 % of 0.13 EUR per kWh"), "42\u{a0}% of 0.13\u{a0}EUR per kWh.");
    }
}
