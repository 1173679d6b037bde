//! The answer in short: of each comparison the verdicts on its main quantity, and a line on how the others stand.

use super::Text;
use super::said::{self, Sentence, full};
use crate::charts::headline;
use crate::one_line::{self, Standing};
use crate::readable::Readable;
use crate::{format, pick};
use calefact_analysis::Quantity;
use calefact_analysis::result::Comparison;

/// Sentences on the main quantity.
const MOST: usize = 6;

/// The answer of a comparison.
pub(super) struct Answer {
    /// Heading.
    pub(super) title: Text,
    /// Anchor of the evidence.
    pub(super) anchor: Text,
    /// One sentence a pair.
    pub(super) sentences: Vec<Sentence>,
    /// How the other quantities stand: "Also settled: burn rate."
    pub(super) others: Vec<Text>,
    /// The gravest remark on the design.
    pub(super) remark: Option<Text>,
}

/// Letters by which two remarks on one thing are known, such as on an odd burn in two comparisons.
const ALIKE: usize = 30;

/// The answers of all comparisons; a remark is made once.
pub(super) fn all(comparisons: &[Comparison]) -> Vec<Answer> {
    let mut answers: Vec<Answer> = comparisons.iter().map(of).collect();
    let mut made: Vec<String> = Vec::new();
    for answer in &mut answers {
        let start = answer.remark.as_ref().map(|r| r.chars().take(ALIKE).collect::<String>());
        match start {
            Some(start) if made.contains(&start) => answer.remark = None,
            Some(start) => made.push(start),
            None => {}
        }
    }
    answers
}

/// The answer of a comparison.
fn of(comparison: &Comparison) -> Answer {
    let quantities = pick::quantities(comparison);
    let main = quantities.first().copied();
    let pairs = main.map_or_else(Vec::new, |q| one_line::main_pairs(comparison, q));
    let trend = main.and_then(|q| one_line::own_trend(comparison, q)).map(said::of_trend);
    let alone = main.and_then(|q| alone(comparison, q));
    Answer {
        title: headline::capital(&comparison.title.replace('_', " ")),
        anchor: anchor(comparison),
        sentences: trend.into_iter().chain(alone).chain(pairs.into_iter().take(MOST).map(said::sentence)).collect(),
        others: others(comparison, quantities.get(1..).unwrap_or_default()),
        remark: comparison.remarks.first().map(|r| full(r)),
    }
}

/// What is known of the only level there is.
fn alone(comparison: &Comparison, quantity: Quantity) -> Option<Sentence> {
    let [group] = &pick::groups(comparison, quantity)[..] else { return None };
    let shown = Readable::of_estimate(quantity, &group.mean).show(&group.mean);
    let trials = match group.trials.len() {
        1 => "1 trial".to_owned(),
        n => format!("{n} trials"),
    };
    let level = format::percent(group.mean.interval.confidence);
    let text = format!(
        "{} of {}: {} ({level} interval {}), from {trials}.",
        headline::capital(quantity.label()),
        pick::group_name(group),
        shown.with_unit(),
        shown.interval
    );
    Some(Sentence { class: "open", word: "not compared", text })
}

/// Anchor of the section on a comparison.
pub(super) fn anchor(comparison: &Comparison) -> Text {
    format!("by-{}", crate::place::slug(&comparison.title))
}

/// Words for a standing, and which it is.
type Kind = (&'static str, fn(Standing) -> bool);

/// One line a standing, naming the quantities that have it.
fn others(comparison: &Comparison, quantities: &[Quantity]) -> Vec<Text> {
    let standing = |q: &Quantity| one_line::standing(comparison, *q);
    let kinds: [Kind; 4] = [
        ("Also settled", |s| s == Standing::Settled),
        ("Settled for some pairs", |s| matches!(s, Standing::Partly(..))),
        ("The same within the margin", |s| s == Standing::Same),
        ("Not settled", |s| s == Standing::Open),
    ];
    let line = |(words, has): Kind| {
        let named: Vec<Text> = quantities
            .iter()
            .filter(|q| standing(q).is_some_and(has))
            .map(|q| headline::short(*q).to_owned())
            .collect();
        (!named.is_empty()).then(|| format!("{words}: {}.", named.join(", ")))
    };
    kinds.into_iter().filter_map(line).collect()
}
