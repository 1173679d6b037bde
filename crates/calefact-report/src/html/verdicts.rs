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
        Some(standing) => standing_words(w, comparison, quantity, standing),
        None if trends().next().is_some() => "trends".to_owned(),
        None => return None,
    };
    let mut pairs = standing::differences(comparison, quantity);
    pairs.sort_by_key(|c| {
        matches!(c.verdict, VerdictKind::NoConclusion | VerdictKind::NotYet | VerdictKind::Confounded)
    });
    let verdicts = pairs.into_iter().map(|c| contrast_sentence(w, comparison, c));
    let main = pick::quantities(comparison).first() == Some(&quantity);
    let role = if main { "" } else { " (secondary)" };
    Some(Fold {
        summary: format!("{}{role}: {standing}", capital(short_quantity_name(quantity))),
        sentences: verdicts.chain(trends().map(|t| trend_sentence(w, comparison, t))).collect(),
    })
}

/// The sentence of a trend.
pub(super) fn trend_sentence(w: &Wording<'_>, comparison: &Comparison, trend: &Trend) -> Sentence {
    let (class, word) = match (trend.confounded.is_empty(), trend.follows()) {
        (false, _) => ("open", "not told apart"),
        (true, true) => ("settled", "settled"),
        (true, false) => ("open", "not settled"),
    };
    Sentence { class, word, text: trend_words(w, comparison, trend) }
}

/// The sentence of a contrast.
pub(super) fn contrast_sentence(w: &Wording<'_>, comparison: &Comparison, contrast: &Contrast) -> Sentence {
    let (class, word) = match contrast.verdict {
        VerdictKind::Above | VerdictKind::Below => ("settled", "settled"),
        VerdictKind::Equivalent => ("same", "the same within the margin"),
        VerdictKind::NoConclusion => ("open", "not settled"),
        VerdictKind::NotYet => ("open", "not yet"),
        VerdictKind::Confounded => ("open", "not told apart"),
    };
    Sentence { class, word, text: verdict(w, comparison, contrast) }
}
