//! A value that remembers which independent sources of error it depends on, to first order.
//!
//! Law of propagation of uncertainty, JCGM 100:2008 clause 5: every estimate is a linear form in independent, zero-mean
//! sources. Two estimates that used the same thermometer hold a part under the same [`Source`], so the common error
//! cancels in their difference where it should and stays undiminished in their mean. No degrees of freedom or
//! distributions live here; they belong to the source and are kept by whoever names it ([`ErrorSources`]).

use crate::contrast::effective_dof;
use serde::Serialize;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Name of an independent source of error, such as `instrument:tank-probe:offset`.
pub type Source = Arc<str>;

/// Shape of a source's error, scaled to unit standard deviation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shape {
    /// Gaussian.
    Normal,
    /// Uniform between two limits (a manufacturer's limit, a display step).
    Rectangular,
    /// Student's t with the source's degrees of freedom, scaled so that one unit is its standard uncertainty.
    Student,
}

/// Properties of a source.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SourceInfo {
    /// Whether more than one trial can share it (an instrument, a calorific value) or it belongs to one trial.
    pub shared: bool,
    /// Degrees of freedom of its standard uncertainty; infinite where it is taken as known.
    pub dof: f64,
    /// Shape of its distribution.
    pub shape: Shape,
}

impl SourceInfo {
    /// The scatter between trials with its degrees of freedom.
    pub fn scatter(dof: f64) -> Self {
        Self { shared: true, dof, shape: Shape::Student }
    }
}

/// All sources of one analysis, in the order of their names.
pub type ErrorSources = BTreeMap<Source, SourceInfo>;

/// A value and its signed first-order parts: part = sensitivity x standard uncertainty of the source, in the unit of the
/// value. Parts are sorted by source.
#[derive(Debug, Clone, PartialEq, Serialize, Default)]
pub struct UncertainValue {
    /// Best estimate.
    pub value: f64,
    /// Signed parts by source.
    pub parts: Vec<(Source, f64)>,
}

impl UncertainValue {
    /// A value without uncertainty.
    pub fn exact(value: f64) -> Self {
        Self { value, parts: Vec::new() }
    }

    /// A value with one source of error of its own.
    pub fn new(value: f64, source: impl Into<Source>, std_uncertainty: f64) -> Self {
        Self { value, parts: vec![(source.into(), std_uncertainty)] }
    }

    /// Adds a part from another source, or adds to the part already there.
    #[must_use]
    pub fn with(mut self, source: impl Into<Source>, part: f64) -> Self {
        let source = source.into();
        match self.parts.binary_search_by(|(s, _)| s.cmp(&source)) {
            Ok(i) => self.parts[i].1 += part,
            Err(i) => self.parts.insert(i, (source, part)),
        }
        self
    }

    /// Standard uncertainty: root sum of squares of the parts.
    pub fn std_uncertainty(&self) -> f64 {
        // An empty sum is minus zero.
        self.parts.iter().map(|(_, p)| p * p).sum::<f64>().sqrt().abs()
    }

    /// Its part from a source; zero without.
    pub fn part(&self, source: &Source) -> f64 {
        self.parts.binary_search_by(|(s, _)| s.cmp(source)).map_or(0.0, |at| self.parts[at].1)
    }

    /// Effective degrees of freedom by the Welch-Satterthwaite formula, JCGM 100:2008 G.4.1; infinite when no source
    /// with finite degrees of freedom contributes.
    pub fn dof(&self, book: &ErrorSources) -> f64 {
        self.dof_by(|source| book.get(source))
    }

    /// The same with sources looked up by the caller, who may keep them in several books.
    pub(crate) fn dof_by<'b>(&self, lookup: impl Fn(&Source) -> Option<&'b SourceInfo>) -> f64 {
        effective_dof(self.parts.iter().map(|(s, p)| (*p, lookup(s).map_or(f64::INFINITY, |info| info.dof))))
    }

    /// Linear combination of values: value and parts are combined with the same weights.
    pub fn combine(terms: &[(f64, &Self)]) -> Self {
        let mut parts: BTreeMap<Source, f64> = BTreeMap::new();
        let mut value = 0.0;
        for (weight, term) in terms {
            value += weight * term.value;
            for (source, part) in &term.parts {
                *parts.entry(source.clone()).or_insert(0.0) += weight * part;
            }
        }
        Self { value, parts: parts.into_iter().collect() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_of_one_source_add_up_and_stay_in_order() {
        let value = UncertainValue::new(1.0, "b", 0.3).with("a", 0.2).with("b", -0.7).with("c", 0.1);
        let parts: Vec<(&str, f64)> = value.parts.iter().map(|(s, p)| (&**s, *p)).collect();
        assert_eq!(parts.iter().map(|p| p.0).collect::<Vec<_>>(), ["a", "b", "c"]);
        assert!((parts[1].1 + 0.4).abs() < 1e-15);
        assert!((value.std_uncertainty() - 0.21f64.sqrt()).abs() < 1e-15);
    }

    /// Welch-Satterthwaite by hand: (1 + 4)^2 / (1 / 4 + 16 / 8) = 100 / 9.
    #[test]
    fn degrees_of_freedom_by_hand() {
        let info = |dof| SourceInfo { shared: false, dof, shape: Shape::Student };
        let book = ErrorSources::from([("a".into(), info(4.0)), ("b".into(), info(8.0))]);
        let value = UncertainValue::new(0.0, "a", 1.0).with("b", 2.0);
        assert!((value.dof(&book) - 100.0 / 9.0).abs() < 1e-12);
        assert!(UncertainValue::new(0.0, "unknown", 1.0).dof(&book).is_infinite());
    }
}
