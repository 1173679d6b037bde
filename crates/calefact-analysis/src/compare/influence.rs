//! Odd burns, and verdicts that hang on a single one. Shown, never dropped.
//!
//! A trial is odd in a quantity when its externally studentized residual has a Bonferroni p below 0.05 over all trials of
//! the comparison. Each verdict is formed again without each odd trial, and without every trial in turn where there are
//! few enough for it to cost nothing.

use super::outcome::{Depth, Outcome, Question, analyse};
use super::sentence::noun;
use super::verdict::differences;
use crate::Quantity;
use crate::result::{TrialResult, VerdictKind};
use crate::words::{p_value, significant};
use calefact_stats::influence::Outlyingness;
use std::collections::BTreeMap;

/// p below which a trial counts as odd.
const ODD: f64 = 0.05;
/// Every trial is left out in turn up to so many trials,
const MOST_TRIALS: usize = 60;
/// and so many repetitions of a quantity's analysis; beyond, for the main quantity only.
const MOST_REPEATS: usize = 150;
/// Remarks of one sort before the rest is counted only.
const MOST_REMARKS: usize = 6;

/// Remarks on odd trials and on verdicts that change without a trial.
pub fn remarks(question: Question<'_>, chosen: &[&TrialResult], order: &[String], outcomes: &[Outcome]) -> Vec<String> {
    let odd = odd_ones(outcomes);
    let mut remarks: Vec<String> = odd.iter().map(|(q, id, o)| odd_remark(question, chosen, *q, id, o)).collect();
    cut(&mut remarks, "odd value");
    let mut changes: BTreeMap<usize, Vec<String>> = BTreeMap::new();
    for (position, outcome) in outcomes.iter().enumerate() {
        let before = differences(question, outcome);
        for index in left_out(chosen, outcome, position, outcomes.len(), &odd) {
            let after = without(question, chosen, order, outcome.quantity, index);
            let found = before.iter().filter_map(|b| change(outcome.quantity, b, &after));
            changes.entry(index).or_default().extend(found);
        }
    }
    let mut hanging: Vec<String> = Vec::new();
    for (index, found) in changes {
        let id = &chosen[index].row.trial;
        let flagged = odd.iter().any(|(_, odd, _)| odd == id);
        if !found.is_empty() {
            hanging.push(format!("without {id} the verdict would change on {}", found.join("; ")));
        } else if flagged {
            hanging.push(format!("without {id} no verdict would change"));
        }
    }
    cut(&mut hanging, "trial whose loss would change a verdict");
    remarks.extend(hanging);
    remarks
}

fn cut(remarks: &mut Vec<String>, what: &str) {
    if remarks.len() > MOST_REMARKS {
        let more = remarks.len() - MOST_REMARKS;
        remarks.truncate(MOST_REMARKS);
        remarks.push(format!("and {more} more of the same sort ({what})"));
    }
}

fn odd_ones(outcomes: &[Outcome]) -> Vec<(Quantity, String, Outlyingness)> {
    let of = |o: &Outcome| {
        let odd = o.odd.iter().filter_map(|(id, odd)| Some((o.quantity, id.clone(), (*odd)?)));
        odd.filter(|(_, _, odd)| odd.p_value < ODD).collect::<Vec<_>>()
    };
    outcomes.iter().flat_map(of).collect()
}

fn odd_remark(
    question: Question<'_>,
    chosen: &[&TrialResult],
    quantity: Quantity,
    id: &str,
    odd: &Outlyingness,
) -> String {
    let note = chosen.iter().find(|t| t.row.trial == id).and_then(|t| t.row.note.as_deref());
    let note = note.map_or_else(String::new, |n| format!(" (its note: {n})"));
    format!(
        "{id} is an odd {}{note}: its {} is {} standard deviations {} what the others lead to expect (p {} among {}); it is kept",
        noun(question.request.kind),
        quantity.label(),
        significant(odd.studentized.abs(), 2),
        if odd.studentized > 0.0 { "above" } else { "below" },
        p_value(odd.p_value),
        chosen.len()
    )
}

/// Which trials to leave out for an outcome: all where cheap, else the odd ones.
fn left_out(
    chosen: &[&TrialResult],
    outcome: &Outcome,
    position: usize,
    outcomes: usize,
    odd: &[(Quantity, String, Outlyingness)],
) -> Vec<usize> {
    if outcome.pairs.is_empty() {
        return Vec::new();
    }
    let n = chosen.len();
    let all = n <= MOST_TRIALS && (position == 0 || n * outcomes <= MOST_REPEATS);
    let flagged = |i: &usize| odd.iter().any(|(_, id, _)| *id == chosen[*i].row.trial);
    let wanted: Vec<usize> = (0..n).filter(|i| all || flagged(i)).collect();
    wanted.into_iter().take(MOST_TRIALS).collect()
}

type Verdict = (String, String, VerdictKind);

fn without(
    question: Question<'_>,
    chosen: &[&TrialResult],
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
    (now != *was).then(|| format!("{}, {a} against {b}: from {} to {}", quantity.label(), verdict(*was), verdict(now)))
}

fn verdict(kind: VerdictKind) -> &'static str {
    match kind {
        VerdictKind::Above => "higher",
        VerdictKind::Below => "lower",
        VerdictKind::Equivalent => "alike",
        VerdictKind::NoConclusion => "no conclusion",
    }
}
