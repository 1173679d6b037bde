//! Findings in few words: of many alike the first ones in full, their number, and the trials they are about.
//!
//! A batch of thousands of trials may find the same thing in each of them; what a person reads, and what is kept in memory,
//! is this digest. The findings themselves go to the table of findings one by one.

use crate::Severity;
use crate::finding::{Fact, Finding};
use serde::Serialize;

/// Findings alike that are kept in full.
pub(crate) const KEPT: usize = 5;

/// Findings of one code and severity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FindingGroup<F> {
    first: Vec<Finding<F>>,
    count: usize,
    lines: bool,
    uniform: bool,
    trials: Vec<String>,
}

impl<F: Fact> FindingGroup<F> {
    fn new(finding: &Finding<F>) -> Self {
        let mut alike = Self { first: Vec::new(), count: 0, lines: false, uniform: true, trials: Vec::new() };
        alike.add(finding);
        alike
    }

    fn add(&mut self, finding: &Finding<F>) {
        if self.first.len() < KEPT {
            self.first.push(finding.clone());
        }
        self.count += 1;
        self.uniform &= self.first[0].fact == finding.fact;
        self.lines |= finding.line.is_some();
        self.trials.extend(finding.trial.clone());
    }

    fn append(&mut self, later: Self) {
        let room = KEPT - self.first.len();
        self.uniform &= later.uniform && self.first[0].fact == later.first[0].fact;
        self.first.extend(later.first.into_iter().take(room));
        self.count += later.count;
        self.lines |= later.lines;
        self.trials.extend(later.trials);
    }

    /// The first finding, which speaks for all.
    pub fn leading(&self) -> &Finding<F> {
        &self.first[0]
    }

    /// The first findings, at most `KEPT`.
    pub fn first(&self) -> &[Finding<F>] {
        &self.first
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.count
    }

    /// Whether any of them names a line of a file.
    pub fn lines(&self) -> bool {
        self.lines
    }

    /// Whether all state the same fact, in every figure.
    pub fn is_uniform(&self) -> bool {
        self.uniform
    }

    /// The trials they are about, in order, each once where its findings follow each other.
    pub fn trials(&self) -> Vec<&str> {
        self.trials_after(0)
    }

    /// The same without the first `told` findings (at most `KEPT`).
    pub fn trials_after(&self, told: usize) -> Vec<&str> {
        let named = self.first.iter().take(told).filter(|f| f.trial.is_some()).count();
        let mut trials: Vec<&str> = self.trials[named..].iter().map(String::as_str).collect();
        trials.dedup();
        trials
    }
}

/// All findings, those alike together, in the order in which the first of each came.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FindingSummary<F> {
    kinds: Vec<FindingGroup<F>>,
}

impl<F> Default for FindingSummary<F> {
    fn default() -> Self {
        Self { kinds: Vec::new() }
    }
}

impl<F: Fact> FindingSummary<F> {
    fn add(&mut self, finding: &Finding<F>) {
        match self.find(finding) {
            Some(at) => self.kinds[at].add(finding),
            None => self.kinds.push(FindingGroup::new(finding)),
        }
    }

    /// Adds what was noticed later.
    pub fn append(&mut self, later: Self) {
        for alike in later.kinds {
            match self.find(alike.leading()) {
                Some(at) => self.kinds[at].append(alike),
                None => self.kinds.push(alike),
            }
        }
    }

    fn find(&self, finding: &Finding<F>) -> Option<usize> {
        let key = |f: &Finding<F>| (f.severity, f.code());
        self.kinds.iter().position(|k| key(k.leading()) == key(finding))
    }

    /// All kinds.
    pub fn kinds(&self) -> &[FindingGroup<F>] {
        &self.kinds
    }

    /// The kinds of one severity.
    pub fn of(&self, severity: Severity) -> impl Iterator<Item = &FindingGroup<F>> {
        self.kinds.iter().filter(move |k| k.leading().severity == severity)
    }

    /// Number of findings of one severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.of(severity).map(FindingGroup::count).sum()
    }

    /// Whether any finding is an error.
    pub fn any_error(&self) -> bool {
        self.of(Severity::Error).next().is_some()
    }
}

impl<'f, F: Fact + 'f> Extend<&'f Finding<F>> for FindingSummary<F> {
    fn extend<I: IntoIterator<Item = &'f Finding<F>>>(&mut self, findings: I) {
        for finding in findings {
            self.add(finding);
        }
    }
}

impl<'f, F: Fact + 'f> FromIterator<&'f Finding<F>> for FindingSummary<F> {
    fn from_iter<I: IntoIterator<Item = &'f Finding<F>>>(findings: I) -> Self {
        let mut noticed = Self::default();
        noticed.extend(findings);
        noticed
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Finding;
    use crate::fact::{self, File, ReadFailure};
    type FindingSummary = super::FindingSummary<fact::Fact>;

    fn case(number: usize) -> File {
        File::Unreadable(ReadFailure::System(format!("case {number}")))
    }

    fn notes(count: usize) -> Vec<Finding> {
        (0..count).map(|i| Finding::note(case(i)).trial(format!("b{i}"))).collect()
    }

    #[test]
    fn of_many_alike_the_first_are_kept_and_all_are_counted() {
        let noticed: FindingSummary = notes(9).iter().collect();
        let [alike] = noticed.kinds() else { panic!("one kind") };
        assert_eq!((alike.first().len(), alike.count(), alike.lines()), (KEPT, 9, false));
        assert!(!alike.is_uniform() && FindingSummary::from_iter(&notes(1)).kinds()[0].is_uniform());
        assert_eq!(alike.trials().len(), 9);
        assert_eq!(alike.trials_after(7 - 2), ["b5", "b6", "b7", "b8"]);
        assert_eq!((noticed.count(Severity::Note), noticed.any_error()), (9, false));
    }

    #[test]
    fn findings_added_later_equal_findings_added_at_once() {
        let mut all = notes(8);
        all.insert(3, Finding::error(case(20)).at("a.csv", Some(3), None));
        all.push(Finding::note(case(21)).at("a.csv", Some(2), None));
        let (early, late) = all.split_at(4);
        let mut noticed: FindingSummary = early.iter().collect();
        noticed.append(late.iter().collect());
        assert_eq!(noticed, all.iter().collect());
        assert!(noticed.any_error() && noticed.kinds().len() == 2);
    }
}
