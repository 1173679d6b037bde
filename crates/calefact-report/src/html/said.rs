//! Verdicts as sentences with a mark: settled, the same, open.

use super::Text;
use crate::brief::{self, Standing};
use crate::charts::headline;
use crate::pick;
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
pub(super) fn folds(comparison: &Comparison) -> Vec<Fold> {
    pick::quantities(comparison).into_iter().filter_map(|q| fold(comparison, q)).collect()
}

fn fold(comparison: &Comparison, quantity: Quantity) -> Option<Fold> {
    let trends = || comparison.trends.iter().filter(|t| t.quantity == quantity);
    let standing = match brief::standing(comparison, quantity) {
        Some(Standing::Settled) => "settled".to_owned(),
        Some(Standing::Partly(settled, all)) => format!("{settled} of {all} pairs settled"),
        Some(Standing::Same) => "the same within the margin".to_owned(),
        Some(Standing::Open) => "not settled".to_owned(),
        None if trends().next().is_some() => "trends".to_owned(),
        None => return None,
    };
    let mut pairs = brief::differences(comparison, quantity);
    pairs.sort_by_key(|c| c.verdict == VerdictKind::NoConclusion);
    Some(Fold {
        summary: format!("{}: {standing}", headline::capital(headline::short(quantity))),
        sentences: pairs.into_iter().map(sentence).chain(trends().map(of_trend)).collect(),
    })
}

/// The sentence of a trend.
pub(super) fn of_trend(trend: &Trend) -> Sentence {
    let (class, word) = if brief::follows(trend) { ("settled", "settled") } else { ("open", "not settled") };
    Sentence { class, word, text: full(&trend.sentence) }
}

/// The sentence of a contrast.
pub(super) fn sentence(contrast: &Contrast) -> Sentence {
    let (class, word) = match contrast.verdict {
        VerdictKind::Above | VerdictKind::Below => ("settled", "settled"),
        VerdictKind::Equivalent => ("same", "the same within the margin"),
        VerdictKind::NoConclusion => ("open", "not settled"),
    };
    Sentence { class, word, text: full(&contrast.sentence) }
}

/// With a capital at the start and a full stop at the end.
pub(super) fn full(sentence: &str) -> Text {
    let text = headline::capital(sentence.trim());
    if text.is_empty() || text.ends_with(['.', '!', '?']) { text } else { text + "." }
}
