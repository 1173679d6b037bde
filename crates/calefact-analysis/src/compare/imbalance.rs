//! What runs along with the factor compared in part: another column whose levels are unevenly spread over its levels, and
//! conditions of the trials that differ. Said with its size, since a part of the difference may be due to it.

use super::conditions::{number, parse};
use super::confounding::{Levels, Role, columns};
use super::outcome::{Outcome, Question};
use super::sample::Sample;
use crate::result::{Conditions, Remark, TrialSummary, Uneven, UnevenCondition};
use calefact_stats::dist::t_quantile;

/// Share of the trials that would have to change from which a column is named.
const UNEVEN: f64 = 0.5;
/// Standard deviations by which a condition must differ to be named: Cohen's (1988) large effect is 0.8.
const APART: f64 = 0.8;
/// Two-sided probability that chance alone sets a condition so far apart, below which it is named.
const CHANCE: f64 = 0.05;
/// Remarks made, the largest first.
const MOST: usize = 3;

/// Remarks on the main quantity's trials, of what the model does not hold constant.
pub(crate) fn remarks(question: Question<'_>, chosen: &[&TrialSummary], outcome: &Outcome) -> Vec<Remark> {
    let request = question.request;
    let sample = Sample::new(request, chosen, outcome.quantity);
    let mut held: Vec<&str> = outcome.held.iter().map(String::as_str).collect();
    held.extend(request.only.keys().map(String::as_str));
    let mut found: Vec<(f64, Remark)> = Vec::new();
    for (a, b) in pairs(outcome) {
        let pair = Pair { sample: &sample, factor: &request.factor, levels: (a, b) };
        let together: Vec<&str> = pair_columns(outcome, (a, b));
        for column in columns(&sample, &request.factor, &held).into_iter().filter(|c| !together.contains(c)) {
            keep_largest(&mut found, column, pair.uneven(column).or_else(|| pair.further_number(column)));
        }
        for condition in Conditions::NAMES.into_iter().filter(|c| !held.contains(c)) {
            keep_largest(&mut found, condition, pair.condition(condition));
        }
    }
    found.sort_by(|x, y| y.0.total_cmp(&x.0));
    found.into_iter().take(MOST).map(|(_, remark)| remark).collect()
}

/// Keeps one remark a column: the one with the largest size.
fn keep_largest(found: &mut Vec<(f64, Remark)>, column: &str, new: Option<(f64, Remark)>) {
    let Some(new) = new else { return };
    let is_same = |(_, remark): &&mut (f64, Remark)| match remark {
        Remark::Uneven(u) => u.column == column,
        Remark::UnevenCondition(u) => u.condition == column,
        _ => false,
    };
    match found.iter_mut().find(is_same) {
        Some(known) if known.0 < new.0 => *known = new,
        Some(_) => {}
        None => found.push(new),
    }
}

/// The pairs of levels that are compared.
fn pairs(outcome: &Outcome) -> Vec<(&str, &str)> {
    let level = |i: usize| outcome.means[i].level.as_str();
    let mut pairs: Vec<(&str, &str)> = outcome.pairs.iter().map(|p| (level(p.a), level(p.b))).collect();
    pairs.sort_unstable();
    pairs.dedup();
    pairs
}

fn pair_columns<'o>(outcome: &'o Outcome, levels: (&str, &str)) -> Vec<&'o str> {
    let is_pair = |(a, b): (usize, usize)| (&*outcome.means[a].level, &*outcome.means[b].level) == levels;
    let own = outcome.pairs.iter().filter(|p| is_pair((p.a, p.b)));
    own.flat_map(|p| p.confounded.iter().map(|c| c.column.as_str())).collect()
}

/// Two levels and their trials.
struct Pair<'s, 't> {
    sample: &'s Sample<'t>,
    factor: &'s str,
    levels: (&'s str, &'s str),
}

impl Pair<'_, '_> {
    fn rows(&self) -> (Vec<usize>, Vec<usize>) {
        (self.sample.rows_of(self.levels.0), self.sample.rows_of(self.levels.1))
    }

    /// A column whose levels are spread unevenly, with the size of it (total variation distance).
    fn uneven(&self, column: &str) -> Option<(f64, Remark)> {
        let role = Role::new(column);
        let (rows_a, rows_b) = self.rows();
        let (a, b) = (Levels::new(self.sample, &rows_a, column)?, Levels::new(self.sample, &rows_b, column)?);
        let (of_a, of_b) = (a.counts.values().sum::<usize>(), b.counts.values().sum::<usize>());
        let names: std::collections::BTreeSet<&str> = a.counts.keys().chain(b.counts.keys()).copied().collect();
        let numbers = names.iter().all(|level| parse(level).is_some());
        if role == Role::Period || (role == Role::Further && numbers) || !role.repeats(names.len(), of_a + of_b) {
            return None;
        }
        let count = |levels: &Levels<'_>, name: &str| levels.counts.get(name).copied().unwrap_or(0);
        let share = |n: usize, of: usize| n as f64 / of as f64;
        let apart = |name: &str| share(count(&a, name), of_a) - share(count(&b, name), of_b);
        let distance = 0.5 * names.iter().map(|name| apart(name).abs()).sum::<f64>();
        let top = names.iter().max_by(|x, y| apart(x).abs().total_cmp(&apart(y).abs()))?;
        let fact = Uneven {
            factor: self.factor.to_owned(),
            a: self.levels.0.to_owned(),
            b: self.levels.1.to_owned(),
            column: column.to_owned(),
            level: (*top).to_owned(),
            of_a: (count(&a, top), of_a),
            of_b: (count(&b, top), of_b),
            distance,
        };
        (distance >= UNEVEN).then_some((distance, Remark::Uneven(Box::new(fact))))
    }

    /// A further column of numbers, as a condition.
    fn further_number(&self, column: &str) -> Option<(f64, Remark)> {
        (Role::new(column) == Role::Further).then(|| self.condition(column)).flatten()
    }

    /// A condition whose means differ by more than chance and by a large part of its scatter.
    fn condition(&self, name: &str) -> Option<(f64, Remark)> {
        let values = |rows: Vec<usize>| -> Vec<f64> {
            rows.iter().filter_map(|&i| number(self.sample.trials[i], name)).collect()
        };
        let (rows_a, rows_b) = self.rows();
        let (a, b) = (values(rows_a), values(rows_b));
        if a.len() < 2 || b.len() < 2 {
            return None;
        }
        let mean = |v: &[f64]| v.iter().sum::<f64>() / v.len() as f64;
        let squares = |v: &[f64], mean: f64| v.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>();
        let (means, dof) = ((mean(&a), mean(&b)), (a.len() + b.len() - 2) as f64);
        let sd = ((squares(&a, means.0) + squares(&b, means.1)) / dof).sqrt();
        let distance = means.0 - means.1;
        // Means that differ by rounding alone do not differ.
        if distance.abs() <= 1e-9 * means.0.abs().max(means.1.abs()) {
            return None;
        }
        let standardised = (distance / sd).abs();
        let spread = (1.0 / a.len() as f64 + 1.0 / b.len() as f64).sqrt();
        let fact = UnevenCondition {
            factor: self.factor.to_owned(),
            a: self.levels.0.to_owned(),
            b: self.levels.1.to_owned(),
            condition: name.to_owned(),
            means,
            standardised,
        };
        let matters = standardised >= APART && standardised / spread > t_quantile(1.0 - 0.5 * CHANCE, dof);
        // Beside shares of trials, which are 1 at most, a condition four standard deviations apart counts as wholly apart.
        matters.then_some(((0.25 * standardised).min(1.0), Remark::UnevenCondition(Box::new(fact))))
    }
}
