//! The sources of error that trials share, numbered, and values whose parts carry those numbers.

use crate::fact::ErrorSource;
use calefact_stats::group::GroupMean;
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
use rustc_hash::FxHashMap;

/// A value as comparing needs it: the parts that other trials have too, and all its own errors as one.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SharedValue<'n> {
    /// Best estimate.
    pub value: f64,
    /// Standard uncertainty that is the trial's alone.
    pub own: f64,
    /// Its effective degrees of freedom (Welch-Satterthwaite).
    pub own_dof: f64,
    /// Numbers of its shared sources.
    pub sources: &'n [u32],
    /// Its parts by those sources.
    pub parts: &'n [f64],
}

impl SharedValue<'_> {
    /// Number and part of each shared source.
    fn numbered(self) -> impl Iterator<Item = (usize, f64)> {
        self.sources.iter().zip(self.parts).map(|(number, part)| (*number as usize, *part))
    }
}

/// Share of a standard uncertainty from which on a value rests on one of its parts.
const NOTABLE: f64 = 0.2;

/// Shared sources in the order of their names, with what is known of each. Every question of an analysis asks for the same
/// ones, part by part, so a source is found by its hash.
#[derive(Debug, Clone, Default)]
pub struct SharedSources {
    book: ErrorSources,
    names: Vec<Source>,
    numbers: FxHashMap<Source, u32>,
}

impl SharedSources {
    /// Those of a book that are shared.
    pub fn from_book(book: &ErrorSources) -> Self {
        let book: ErrorSources = book.iter().filter(|(_, i)| i.shared).map(|(s, i)| (s.clone(), i.clone())).collect();
        let names: Vec<Source> = book.keys().cloned().collect();
        let numbers = names.iter().cloned().zip(0..).collect();
        Self { book, names, numbers }
    }

    /// Their properties.
    pub fn book(&self) -> &ErrorSources {
        &self.book
    }

    /// Whether a value has a part of a source whose name begins so.
    pub(crate) fn rests_on(&self, value: SharedValue<'_>, prefix: &str) -> bool {
        let squares: f64 = value.parts.iter().map(|part| part * part).sum();
        let least = NOTABLE * libm::hypot(value.own, squares.sqrt());
        value.numbered().any(|(source, part)| part.abs() > least && self.names[source].starts_with(prefix))
    }

    /// A value by its shared parts; what is the trial's alone is looked up in its `own` book and becomes one part. The slices
    /// are filled with the numbers of the sources and the parts.
    pub fn split<'n>(
        &self,
        traced: &UncertainValue,
        own: &ErrorSources,
        (sources, parts): (&'n mut Vec<u32>, &'n mut Vec<f64>),
    ) -> SharedValue<'n> {
        let mut rest = UncertainValue::exact(traced.value);
        for (source, part) in &traced.parts {
            match self.numbers.get(source) {
                Some(number) => {
                    sources.push(*number);
                    parts.push(*part);
                }
                None => rest.parts.push((source.clone(), *part)),
            }
        }
        SharedValue { value: traced.value, own: rest.std_uncertainty(), own_dof: rest.dof(own), sources, parts }
    }

    /// A trial's value with its parts by source again, its own errors as one source that names the trial.
    pub fn traced(&self, trial: &str, value: SharedValue<'_>) -> UncertainValue {
        let parts = value.numbered().map(|(number, part)| (self.names[number].clone(), part)).collect();
        let traced = UncertainValue { value: value.value, parts };
        if value.own == 0.0 { traced } else { traced.with(own_source(trial), value.own) }
    }

    /// Mean of a group with the parts its trials share, averaged. A trial alone keeps all its parts; it is named by `alone`.
    pub fn mean(&self, values: &[SharedValue<'_>], alone: &str, scatter: Source) -> Option<GroupMean> {
        if let [value] = values {
            let own = own_source(alone);
            let info = SourceInfo { shared: false, dof: value.own_dof, shape: Shape::Normal };
            let lookup = |s: &Source| if *s == own { Some(&info) } else { self.book.get(s) };
            return Some(GroupMean::single(&self.traced(alone, *value), lookup));
        }
        let bare: Vec<f64> = values.iter().map(|v| v.value).collect();
        let weight = 1.0 / values.len() as f64;
        GroupMean::repeated(&bare, self.combined(values.iter().map(|v| (*v, weight))), &self.book, scatter)
    }

    /// Shared parts of the sum of w x over (x, w), source by source, without those that are zero.
    pub fn combined<'v>(&self, terms: impl IntoIterator<Item = (SharedValue<'v>, f64)>) -> Vec<(Source, f64)> {
        let mut sums = vec![0.0; self.names.len()];
        for (value, weight) in terms {
            value.numbered().for_each(|(source, part)| sums[source] += weight * part);
        }
        self.names.iter().cloned().zip(sums).filter(|(_, part)| *part != 0.0).collect()
    }
}

/// Name of the source that stands for all that is one trial's alone.
pub(crate) fn own_source(trial: &str) -> Source {
    ErrorSource::TrialAlone { trial: trial.to_owned() }.key()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn own_errors_become_one_with_the_same_uncertainty_and_freedom() {
        let info = |shared, dof| SourceInfo { shared, dof, shape: Shape::Normal };
        let own = ErrorSources::from([("a".into(), info(false, 3.0)), ("b".into(), info(false, 7.0))]);
        let shared = SharedSources::from_book(&ErrorSources::from([("scale".into(), info(true, f64::INFINITY))]));
        let traced = UncertainValue::new(5.0, "a", 0.3).with("b", 0.4).with("scale", -0.2);
        let (mut sources, mut parts) = (Vec::new(), Vec::new());
        let value = shared.split(&traced, &own, (&mut sources, &mut parts));
        assert_eq!((value.value, value.sources, value.parts), (5.0, &[0][..], &[-0.2][..]));
        assert!((value.own - 0.5).abs() < 1e-15);
        // JCGM 100:2008, G.4.1: 0.5^4 / (0.3^4 / 3 + 0.4^4 / 7).
        assert!((value.own_dof - 0.0625 / (0.0081 / 3.0 + 0.0256 / 7.0)).abs() < 1e-12);
        let alone = shared.mean(&[value], "b1", "scatter".into()).expect("one trial");
        assert!((alone.mean.std_uncertainty() / traced.std_uncertainty() - 1.0).abs() < 1e-15);
        assert!((alone.dof / traced.dof(&own) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn shared_parts_are_summed_with_their_weights() {
        let info = SourceInfo { shared: true, dof: f64::INFINITY, shape: Shape::Normal };
        let shared = SharedSources::from_book(&["a", "b", "c"].map(|s| (s.into(), info.clone())).into());
        let x = SharedValue { sources: &[0, 1], parts: &[1.0, 2.0], ..SharedValue::default() };
        let y = SharedValue { sources: &[0, 2], parts: &[1.0, 5.0], ..SharedValue::default() };
        let sums = shared.combined([(x, 1.0), (y, -1.0)]);
        assert_eq!(sums, [("b".into(), 2.0), ("c".into(), -5.0)]);
    }
}
