//! Odd burns, and verdicts that hang on a single one. Shown, never dropped.
//!
//! A trial is odd in a quantity when its externally studentized residual has a Bonferroni p below 0.05 over all trials of
//! the comparison. Each verdict is formed again without each odd trial, and without every trial in turn where there are
//! few enough for it to cost nothing. Without one of two trials a level has no scatter, which says nothing of the trial.

use super::one_quantity::analyse;
use super::outcome::{Depth, Outcome, Question};
use super::page::Judged;
use super::verdict::{Difference, change, differences};
use crate::Quantity;
use crate::result::{OddTrial, Remark, TrialSummary, VerdictChange};
use calefact_stats::influence::Outlyingness;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Every trial is left out in turn up to so many trials,
const MOST_TRIALS: usize = 60;
/// and so many repetitions of a quantity's analysis; beyond, for the main quantity only.
const MOST_REPEATS: usize = 150;
/// Above so many trials none is left out: no single one moves a verdict there, and trying would take longer than all else.
const SINGLE_MATTERS: usize = 400;
/// Remarks of one sort before the rest is counted only.
const MOST_REMARKS: usize = 6;

/// Data that a comparison is tried on again.
struct Trying<'q, 't> {
    question: Question<'q>,
    chosen: &'q [&'t TrialSummary],
    order: &'q [String],
    outcomes: &'q [Outcome],
    judged: &'q [Judged],
    /// Odd trials with their oddness in each quantity.
    odd: BTreeMap<Arc<str>, Vec<(Quantity, Outlyingness)>>,
}

/// Remarks on odd trials and on verdicts that change without a trial.
pub(crate) fn remarks(
    question: Question<'_>,
    chosen: &[&TrialSummary],
    order: &[String],
    (outcomes, judged): (&[Outcome], &[Judged]),
) -> Vec<Remark> {
    let trying = Trying { question, chosen, order, outcomes, judged, odd: odd_trials(outcomes) };
    let mut remarks: Vec<Remark> = trying.odd.iter().map(|(id, found)| odd_remark(chosen, id, found)).collect();
    cut(&mut remarks, Remark::MoreOddTrials);
    let mut fragile = trying.fragile();
    cut(&mut fragile, Remark::MoreFragile);
    remarks.extend(fragile);
    remarks
}

/// Odd trials by id, each with the quantities in which it is odd.
fn odd_trials(outcomes: &[Outcome]) -> BTreeMap<Arc<str>, Vec<(Quantity, Outlyingness)>> {
    let mut trials: BTreeMap<Arc<str>, Vec<(Quantity, Outlyingness)>> = BTreeMap::new();
    for outcome in outcomes {
        for (id, found) in &outcome.odd {
            trials.entry(id.clone()).or_default().push((outcome.quantity, *found));
        }
    }
    trials
}

fn odd_remark(chosen: &[&TrialSummary], id: &str, found: &[(Quantity, Outlyingness)]) -> Remark {
    let note = chosen.iter().find(|t| *t.trial == *id).and_then(|t| t.note.as_deref());
    Remark::OddTrial(OddTrial {
        trial: id.to_owned(),
        note: note.map(ToOwned::to_owned),
        distances: found.iter().map(|(quantity, o)| (*quantity, o.studentized)).collect(),
        p_value: found.iter().map(|(_, o)| o.p_value).fold(1.0, f64::min),
        among: chosen.len(),
    })
}

/// Keeps the first remarks and counts the rest.
fn cut(remarks: &mut Vec<Remark>, more: fn(usize) -> Remark) {
    if remarks.len() > MOST_REMARKS {
        let left = remarks.len() - MOST_REMARKS;
        remarks.truncate(MOST_REMARKS);
        remarks.push(more(left));
    }
}

impl Trying<'_, '_> {
    /// Verdicts that change without a trial, each with the trials it hangs on; then odd trials on which none does.
    fn fragile(&self) -> Vec<Remark> {
        let mut changes: Vec<(VerdictChange, Vec<String>)> = Vec::new();
        for (index, change) in self.changes() {
            let id = self.chosen[index].trial.to_string();
            match changes.iter_mut().find(|(known, _)| *known == change) {
                Some((_, ids)) => ids.push(id),
                None => changes.push((change, vec![id])),
            }
        }
        let tried: BTreeSet<usize> =
            self.outcomes.iter().enumerate().flat_map(|(position, o)| self.left_out(o, position)).collect();
        let tried = |id: &str| tried.iter().any(|i| *self.chosen[*i].trial == *id);
        let hangs = |id: &str| changes.iter().any(|(_, ids)| ids.iter().any(|known| known == id));
        let idle: BTreeSet<&str> = self.odd.keys().map(|id| &**id).filter(|id| tried(id) && !hangs(id)).collect();
        let idle: Vec<Remark> = idle.into_iter().map(|id| Remark::NoVerdictChanges(id.to_owned())).collect();
        let fragile = changes.into_iter().map(|(change, trials)| Remark::Fragile { trials, change });
        fragile.chain(idle).collect()
    }

    /// Changes of verdicts, each with the index of the trial that was left out.
    fn changes(&self) -> Vec<(usize, VerdictChange)> {
        let outcomes = self.outcomes.iter().enumerate();
        let tries: Vec<(&Outcome, f64, usize)> = outcomes
            .flat_map(|(position, outcome)| {
                let level = self.judged[position].level;
                self.left_out(outcome, position).into_iter().map(move |i| (outcome, level, i))
            })
            .collect();
        let changed = |&(outcome, level, index): &(&Outcome, f64, usize)| -> Vec<(usize, VerdictChange)> {
            let after = self.without(outcome.quantity, level, index);
            let before = differences(self.question, level, outcome);
            before.iter().filter_map(|b| Some((index, change(self.question, outcome.quantity, b, &after)?))).collect()
        };
        tries.par_iter().flat_map_iter(changed).collect()
    }

    /// Which trials to leave out for an outcome: all where cheap, else the odd ones.
    fn left_out(&self, outcome: &Outcome, position: usize) -> Vec<usize> {
        let n = self.chosen.len();
        if n > SINGLE_MATTERS || outcome.pairs.is_empty() {
            return Vec::new();
        }
        let all = n <= MOST_TRIALS && (position == 0 || n * self.outcomes.len() <= MOST_REPEATS);
        let wanted = (0..n).filter(|i| all || self.odd.contains_key(&self.chosen[*i].trial));
        let wanted = wanted.filter(|i| self.leaves_two(outcome, *i));
        wanted.take(MOST_TRIALS).collect()
    }

    /// Whether at least two trials of its level stay without the trial.
    fn leaves_two(&self, outcome: &Outcome, index: usize) -> bool {
        let level = self.chosen[index].level(&self.question.request.factor);
        let mean = outcome.means.iter().find(|m| Some(m.level.as_str()) == level);
        mean.is_some_and(|m| m.trials.len() > 2)
    }

    fn without(&self, quantity: Quantity, level: f64, index: usize) -> Vec<Difference> {
        let mut rest = self.chosen.to_vec();
        rest.remove(index);
        differences(self.question, level, &analyse(self.question, &rest, self.order, quantity, Depth::Verdicts))
    }
}
