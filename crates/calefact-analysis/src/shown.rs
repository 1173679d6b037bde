//! Trials that stay whole to be shown one by one: the first of each kind, and a sample of those whose tank curve is known.
//!
//! Of few trials all stay. Of many the sample thins itself out while trials come, so that it need not know how many there
//! will be: of each set one in so many is drawn, counted over the trials that have a curve.

use crate::result::{Curves, TrialResult};
use calefact_data::TrialKind;
use std::collections::BTreeMap;

/// Trials of each kind that tables of single trials show, in register order.
pub const MOST: usize = 200;
/// Trials with an energy balance that stay, should the first of their kind have none.
const MOST_BALANCES: usize = 40;
/// Curves drawn, and one a set more at most.
const MOST_CURVES: usize = 60;
/// Sets of curves drawn.
const MOST_SETS: usize = 8;

/// The trials kept so far.
#[derive(Debug, Clone)]
pub struct Shown {
    factor: String,
    kept: Vec<Kept>,
    kinds: BTreeMap<TrialKind, usize>,
    balances: usize,
    /// Sets by name, with the number of their trials that have a curve.
    sets: Vec<(String, usize)>,
    step: usize,
    curves: usize,
}

#[derive(Debug, Clone)]
struct Kept {
    result: TrialResult,
    /// Whether it stays whatever comes.
    first: bool,
    /// Its set and its number in it, where its curve is drawn.
    curve: Option<(usize, usize)>,
}

impl Shown {
    /// None yet; curves are split into sets by the levels of a factor.
    pub fn by(factor: impl Into<String>) -> Self {
        let factor = factor.into();
        Self { factor, kept: vec![], kinds: BTreeMap::new(), balances: 0, sets: vec![], step: 1, curves: 0 }
    }

    /// Looks at the next trial and keeps it, if it is to be shown.
    pub fn add(&mut self, result: TrialResult) {
        let first = self.is_first(&result);
        let curve = self.curve(&result);
        if first || curve.is_some() {
            self.kept.push(Kept { result, first, curve });
        }
        while self.curves > MOST_CURVES * self.step {
            self.thin_out();
        }
    }

    fn is_first(&mut self, result: &TrialResult) -> bool {
        let of_kind = self.kinds.entry(result.row.kind).or_insert(0);
        *of_kind += 1;
        let balanced = result.usable() && !result.balance.is_empty();
        self.balances += usize::from(balanced);
        *of_kind <= MOST || (balanced && self.balances <= MOST_BALANCES)
    }

    /// Set and number of a trial that has a curve, if that is drawn.
    fn curve(&mut self, result: &TrialResult) -> Option<(usize, usize)> {
        if result.curve.measured.len() < 2 {
            return None;
        }
        self.curves += 1;
        let name = set_name(result, &self.factor);
        let known = self.sets.iter().position(|(n, _)| n == name);
        let set = known.unwrap_or_else(|| {
            self.sets.push((name.to_owned(), 0));
            self.sets.len() - 1
        });
        let number = self.sets[set].1;
        self.sets[set].1 += 1;
        (set < MOST_SETS && number.is_multiple_of(self.step)).then_some((set, number))
    }

    fn thin_out(&mut self) {
        self.step *= 2;
        for kept in &mut self.kept {
            kept.curve = kept.curve.filter(|(_, number)| number.is_multiple_of(self.step));
        }
        self.kept.retain(|k| k.first || k.curve.is_some());
    }

    /// The trials, in the order in which they came, and which of their curves are drawn.
    pub fn finish(self) -> (Vec<TrialResult>, Curves) {
        let names = self.sets.iter().take(MOST_SETS).map(|(name, _)| (name.clone(), Vec::new()));
        let mut curves =
            Curves { sets: names.collect(), step: self.step, trials: self.curves, all_sets: self.sets.len() };
        for (place, kept) in self.kept.iter().enumerate() {
            if let Some((set, _)) = kept.curve {
                curves.sets[set].1.push(place);
            }
        }
        (self.kept.into_iter().map(|k| k.result).collect(), curves)
    }
}

/// Name of the set a trial belongs to: its level of a factor, or its kind where no fuel burns.
fn set_name<'r>(result: &'r TrialResult, factor: &str) -> &'r str {
    let level = result.row.level(factor);
    match result.row.kind {
        TrialKind::Burn => level.unwrap_or("burns"),
        TrialKind::StandingLoss => "standing loss",
        TrialKind::ReferenceHeater => level.unwrap_or("reference heater"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::result::Curve;
    use crate::test_support::row;

    fn trial(number: usize, stove: &str, curve: bool) -> TrialResult {
        let mut row = row(TrialKind::Burn);
        row.trial = format!("b{number}");
        row.stove = Some(stove.into());
        let measured = if curve { vec![(0.0, 10.0), (60.0, 20.0)] } else { Vec::new() };
        TrialResult { curve: Curve { measured, ..Curve::default() }, ..TrialResult::empty(row, 2, Vec::new()) }
    }

    fn shown(trials: impl Iterator<Item = TrialResult>) -> (Vec<TrialResult>, Curves) {
        let mut shown = Shown::by("stove");
        trials.for_each(|t| shown.add(t));
        shown.finish()
    }

    #[test]
    fn of_few_trials_all_are_shown() {
        let (trials, curves) = shown((0..60).map(|i| trial(i, ["box", "rocket"][i % 2], true)));
        assert_eq!((trials.len(), curves.step, curves.trials, curves.all_sets), (60, 1, 60, 2));
        assert_eq!(curves.sets[1].1, (0..60).skip(1).step_by(2).collect::<Vec<_>>());
    }

    #[test]
    fn of_many_one_in_so_many_of_each_set_counted_over_those_with_a_curve() {
        let stove = |i: usize| if i < 2500 { "box" } else { "rocket" };
        let (trials, curves) = shown((0..5000).map(|i| trial(i, stove(i), i % 64 != 0)));
        assert_eq!((curves.step, curves.trials), (128, 5000 - 79));
        assert_eq!(trials.len(), MOST + curves.sets.iter().flat_map(|s| &s.1).filter(|i| **i >= MOST).count());
        for (name, members) in &curves.sets {
            assert!(members.len() > 15, "{name}: {}", members.len());
            assert!(members.iter().all(|i| trials[*i].curve.measured.len() > 1 && stove_of(&trials[*i]) == name));
        }
        let rockets: Vec<&str> = curves.sets[1].1.iter().map(|i| trials[*i].row.trial.as_str()).collect();
        assert_eq!(&rockets[..2], ["b2500", "b2630"], "128 with a curve later, two without lie between");
    }

    fn stove_of(trial: &TrialResult) -> &str {
        trial.row.stove.as_deref().unwrap_or_default()
    }

    #[test]
    fn a_level_without_any_curve_takes_no_set() {
        let (_, curves) = shown((0..10).map(|i| trial(i, &format!("s{i}"), i > 0)));
        assert_eq!((curves.sets.len(), curves.all_sets, curves.sets[0].0.as_str()), (8, 9, "s1"));
    }
}
