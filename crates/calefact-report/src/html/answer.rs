//! The answer: the verdicts of each comparison in words, quantity by quantity.

use super::Text;
use crate::charts::headline;
use crate::pick;
use calefact_analysis::result::{Comparison, Contrast, VerdictKind};

/// The verdicts of a comparison.
pub(super) struct Answer<'a> {
    /// Heading.
    pub(super) title: Text,
    /// Anchor of the evidence.
    pub(super) anchor: Text,
    /// Verdicts by quantity.
    pub(super) lines: Vec<Line>,
    /// Remarks on the design.
    pub(super) remarks: &'a [String],
}

/// The verdicts of a quantity.
pub(super) struct Line {
    /// Quantity in words.
    pub(super) quantity: Text,
    /// One sentence a pair.
    pub(super) sentences: Vec<Sentence>,
}

/// A verdict.
pub(super) struct Sentence {
    /// CSS class: settled, same, open.
    pub(super) class: &'static str,
    /// The class in a word, for readers who do not see the mark.
    pub(super) word: &'static str,
    /// The sentence.
    pub(super) text: Text,
}

/// The answer of a comparison.
pub(super) fn of(comparison: &Comparison) -> Answer<'_> {
    let lines = pick::quantities(comparison).into_iter().filter_map(|quantity| {
        let sentences = sentences(comparison.contrasts.iter().filter(|c| c.quantity == quantity));
        let quantity = headline::capital(headline::short(quantity));
        (!sentences.is_empty()).then_some(Line { quantity, sentences })
    });
    Answer {
        title: headline::capital(&comparison.title),
        anchor: anchor(comparison),
        lines: lines.collect(),
        remarks: &comparison.remarks,
    }
}

/// Anchor of the section on a comparison.
pub(super) fn anchor(comparison: &Comparison) -> Text {
    format!("by-{}", crate::place::slug(&comparison.title))
}

/// One sentence a pair: a difference and a ratio of the same pair say the same. What is settled comes first.
fn sentences<'a>(contrasts: impl Iterator<Item = &'a Contrast>) -> Vec<Sentence> {
    let mut pairs: Vec<&Contrast> = Vec::new();
    for contrast in contrasts {
        if !pairs.iter().any(|c| c.a == contrast.a && c.b == contrast.b) {
            pairs.push(contrast);
        }
    }
    pairs.sort_by_key(|c| c.verdict == VerdictKind::NoConclusion);
    pairs.into_iter().map(sentence).collect()
}

fn sentence(contrast: &Contrast) -> Sentence {
    let (class, word) = match contrast.verdict {
        VerdictKind::Above | VerdictKind::Below => ("settled", "settled"),
        VerdictKind::Equivalent => ("same", "the same within the margin"),
        VerdictKind::NoConclusion => ("open", "not settled"),
    };
    Sentence { class, word, text: full(&contrast.sentence) }
}

/// With a capital at the start and a full stop at the end.
fn full(sentence: &str) -> Text {
    let text = headline::capital(sentence.trim());
    if text.is_empty() || text.ends_with(['.', '!', '?']) { text } else { text + "." }
}
