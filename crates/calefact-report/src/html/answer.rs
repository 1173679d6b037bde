//! The answer in short: of each comparison the verdicts on its main quantity, and a line on how the others stand.

use super::grid::Text;
use super::verdicts::{self, Sentence};
use crate::words::glossary::explained;
use crate::words::remark::brief_remark;
use crate::words::{Wording, capital, comparison_title, only_group, other_results};
use crate::{pick, standing};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Comparison, Remark};

/// Sentences on the main quantity.
const MOST: usize = 6;

/// The answer of a comparison.
pub(super) struct Answer {
    /// Heading.
    pub(super) title: Text,
    /// Anchor of the evidence.
    pub(super) anchor: Text,
    /// Meaning of the main quantity: "Burn rate: wood burnt in an hour."; empty where an earlier answer says it.
    pub(super) meaning: Text,
    /// One sentence a pair.
    pub(super) sentences: Vec<Sentence>,
    /// Results on the other quantities.
    pub(super) others: Vec<Text>,
    /// The gravest remark on the design.
    pub(super) remark: Option<Text>,
}

/// The answers of all comparisons; a remark is made once.
pub(super) fn answers(w: &Wording<'_>, comparisons: &[Comparison]) -> Vec<Answer> {
    let mut made: Vec<&Remark> = Vec::new();
    let mut known: Vec<Quantity> = Vec::new();
    let mut answers = Vec::new();
    for comparison in comparisons {
        let main = pick::quantities(comparison).first().copied().filter(|q| !known.contains(q));
        known.extend(main);
        let remark = comparison.remarks.first().filter(|remark| !made.iter().any(|known| known.same_subject(remark)));
        made.extend(remark);
        answers.push(Answer { meaning: main.map_or_else(Text::new, explained), ..answer(w, comparison, remark) });
    }
    answers
}

/// The answer of a comparison.
fn answer(w: &Wording<'_>, comparison: &Comparison, remark: Option<&Remark>) -> Answer {
    let quantities = pick::quantities(comparison);
    let main = quantities.first().copied();
    let pairs = main.map_or_else(Vec::new, |q| standing::main_pairs(comparison, q));
    let trend = main.and_then(|q| standing::own_trend(comparison, q));
    let trend = trend.map(|t| verdicts::trend_sentence(w, comparison, t));
    let alone = main.and_then(|q| alone(w, comparison, q));
    let pairs = pairs.into_iter().take(MOST).map(|c| verdicts::contrast_sentence(w, comparison, c));
    Answer {
        title: capital(&comparison_title(w, comparison)),
        anchor: anchor(comparison),
        meaning: Text::new(),
        sentences: trend.into_iter().chain(alone).chain(pairs).collect(),
        others: other_results(w, comparison, quantities.get(1..).unwrap_or_default()),
        remark: remark.map(|r| brief_remark(w, comparison, r)),
    }
}

/// Words on the only level there is.
fn alone(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity) -> Option<Sentence> {
    let [group] = &pick::groups(comparison, quantity)[..] else { return None };
    Some(Sentence { class: "open", word: "not compared", text: only_group(w, group) })
}

/// Anchor of the section on a comparison.
pub(super) fn anchor(comparison: &Comparison) -> Text {
    format!("by-{}", crate::place::slug(&comparison_title(&Wording::plain(), comparison)))
}
