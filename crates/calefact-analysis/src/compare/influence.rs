//! Odd burns, and verdicts that hang on a single one. Shown, never dropped.
//!
//! A trial is odd in a quantity when its externally studentized residual has a Bonferroni p below 0.05 over all trials of
//! the comparison. Each verdict is formed again without each odd trial, and without every trial in turn where there are
//! few enough for it to cost nothing.

use super::outcome::{Depth, Outcome, Question, analyse};
use super::sentence::{name, noun};
use super::verdict::differences;
use crate::Quantity;
use crate::result::{TrialSummary, VerdictKind};
use crate::words::{p_value, plural, significant};
use calefact_data::TrialKind;
use calefact_stats::influence::Outlyingness;
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Every trial is left out in turn up to so many trials,
const MOST_TRIALS: usize = 60;
/// and so many repetitions of a quantity's analysis; beyond, for the main quantity only.
const MOST_REPEATS: usize = 150;
/// Above so many trials none is left out: no single one moves a verdict there, and trying would take longer than all else.
const SINGLE_MATTERS: usize = 400;
/// Remarks of one sort before the rest is counted only.
const MOST_REMARKS: usize = 6;

/// Remarks on odd trials and on verdicts that change without a trial.
pub fn remarks(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    order: &[String],
    outcomes: &[Outcome],
) -> Vec<String> {
    let odd = odd_ones(outcomes);
    let ids: BTreeSet<&str> = odd.iter().map(|o| &*o.1).collect();
    let mut remarks: Vec<String> = ids.into_iter().map(|id| odd_remark(question, chosen, id, &odd)).collect();
    cut(&mut remarks, "odd trial");
    let mut hanging = hanging(question, chosen, order, outcomes, &odd);
    cut(&mut hanging, "verdict that hangs on single trials");
    remarks.extend(hanging);
    remarks
}

/// Verdicts that change without a trial, each with the trials it hangs on; then odd trials on which none does.
fn hanging(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    order: &[String],
    outcomes: &[Outcome],
    odd: &[(Quantity, Arc<str>, Outlyingness)],
) -> Vec<String> {
    let tries = outcomes.iter().enumerate().flat_map(|(position, outcome)| {
        left_out(chosen, outcome, position, outcomes.len(), odd).into_iter().map(move |index| (outcome, index))
    });
    let tries: Vec<(&Outcome, usize)> = tries.collect();
    let changed = |&(outcome, index): &(&Outcome, usize)| {
        let after = without(question, chosen, order, outcome.quantity, index);
        let before = differences(question, outcome);
        let texts: Vec<String> = before.iter().filter_map(|b| change(outcome.quantity, b, &after)).collect();
        (index, texts)
    };
    let found: Vec<(usize, Vec<String>)> = tries.par_iter().map(changed).collect();
    let mut changes: Vec<(String, Vec<&str>)> = Vec::new();
    for (index, text) in found.into_iter().flat_map(|(i, texts)| texts.into_iter().map(move |t| (i, t))) {
        let id = &*chosen[index].trial;
        match changes.iter_mut().find(|(known, _)| *known == text) {
            Some((_, ids)) => ids.push(id),
            None => changes.push((text, vec![id])),
        }
    }
    let tried = chosen.len() <= SINGLE_MATTERS;
    let idle = odd.iter().filter(|_| tried).map(|o| &*o.1).collect::<BTreeSet<_>>();
    let idle = idle.into_iter().filter(|id| !changes.iter().any(|(_, ids)| ids.contains(id)));
    let idle: Vec<String> = idle.map(|id| format!("without {id} no verdict would change")).collect();
    let words = |(text, ids): &(String, Vec<&str>)| {
        format!("without {} the verdict would change on {text}", any_of(ids, question.request.kind))
    };
    changes.iter().map(words).chain(idle).collect()
}

/// "b1", "either b1 or b2", "any one of b1, b2, b3", "any one of 9 burns".
fn any_of(ids: &[&str], kind: TrialKind) -> String {
    match ids {
        [one] => (*one).to_owned(),
        [a, b] => format!("either {a} or {b}"),
        few if few.len() <= MOST_REMARKS => format!("any one of {}", few.join(", ")),
        many => format!("any one of {}", plural(many.len(), noun(kind))),
    }
}

fn cut(remarks: &mut Vec<String>, what: &str) {
    if remarks.len() > MOST_REMARKS {
        let more = remarks.len() - MOST_REMARKS;
        remarks.truncate(MOST_REMARKS);
        remarks.push(format!("and {more} more of the same sort ({what})"));
    }
}

fn odd_ones(outcomes: &[Outcome]) -> Vec<(Quantity, Arc<str>, Outlyingness)> {
    let of = |o: &Outcome| o.odd.iter().map(|(id, odd)| (o.quantity, id.clone(), *odd)).collect::<Vec<_>>();
    outcomes.iter().flat_map(of).collect()
}

fn odd_remark(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    id: &str,
    odd: &[(Quantity, Arc<str>, Outlyingness)],
) -> String {
    let note = chosen.iter().find(|t| *t.trial == *id).and_then(|t| t.note.as_deref());
    let note = note.map_or_else(String::new, |n| format!(" (its note: {n})"));
    let own = || odd.iter().filter(|o| *o.1 == *id);
    let distance = |(quantity, _, o): &(Quantity, Arc<str>, Outlyingness)| {
        let side = if o.studentized > 0.0 { "above" } else { "below" };
        format!("{} {} standard deviations {side}", name(*quantity), significant(o.studentized.abs(), 2))
    };
    let distances: Vec<String> = own().map(distance).collect();
    let smallest = own().map(|o| o.2.p_value).fold(1.0, f64::min);
    format!(
        "{id} is an odd {}{note}: {} what the others lead to expect (p {} among {}); it is kept",
        noun(question.request.kind),
        distances.join(", "),
        p_value(smallest),
        chosen.len()
    )
}

/// Which trials to leave out for an outcome: all where cheap, else the odd ones.
fn left_out(
    chosen: &[&TrialSummary],
    outcome: &Outcome,
    position: usize,
    outcomes: usize,
    odd: &[(Quantity, Arc<str>, Outlyingness)],
) -> Vec<usize> {
    if chosen.len() > SINGLE_MATTERS {
        return Vec::new();
    }
    if outcome.pairs.is_empty() {
        return Vec::new();
    }
    let n = chosen.len();
    let all = n <= MOST_TRIALS && (position == 0 || n * outcomes <= MOST_REPEATS);
    let flagged = |i: &usize| odd.iter().any(|(_, id, _)| *id == chosen[*i].trial);
    let wanted: Vec<usize> = (0..n).filter(|i| all || flagged(i)).collect();
    wanted.into_iter().take(MOST_TRIALS).collect()
}

type Verdict = (String, String, VerdictKind);

fn without(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    order: &[String],
    quantity: Quantity,
    index: usize,
) -> Vec<Verdict> {
    let mut rest = chosen.to_vec();
    rest.remove(index);
    differences(question, &analyse(question, &rest, order, quantity, Depth::Verdicts))
}

/// The change of one verdict in words; none where it stays.
pub(super) fn change(quantity: Quantity, before: &Verdict, after: &[Verdict]) -> Option<String> {
    let (a, b, was) = before;
    let now = after.iter().find(|(x, y, _)| x == a && y == b).map_or(VerdictKind::NoConclusion, |v| v.2);
    (now != *was).then(|| format!("{}, {a} against {b}: from {} to {}", name(quantity), verdict(*was), verdict(now)))
}

fn verdict(kind: VerdictKind) -> &'static str {
    match kind {
        VerdictKind::Above => "higher",
        VerdictKind::Below => "lower",
        VerdictKind::Equivalent => "alike",
        VerdictKind::NoConclusion => "no conclusion",
    }
}
