//! Degrees of freedom of the sources behind several values, looked up once for all of them.

use crate::contrast::effective_dof;
use crate::uncertain_value::{Source, SourceInfo, UncertainValue};
use std::collections::BTreeSet;
use std::sync::Arc;

/// The sources of some inputs in the order of their names, each with its degrees of freedom.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Freedom {
    sources: Vec<(Source, f64)>,
}

impl Freedom {
    /// All sources of the inputs of a model; one that `lookup` does not know counts as known exactly (infinite).
    pub fn new<'b>(inputs: &[UncertainValue], lookup: impl Fn(&Source) -> Option<&'b SourceInfo>) -> Self {
        let sources: BTreeSet<&Source> = inputs.iter().flat_map(|t| &t.parts).map(|(source, _)| source).collect();
        let dof = |source: &Source| lookup(source).map_or(f64::INFINITY, |info| info.dof);
        Self { sources: sources.into_iter().map(|source| (source.clone(), dof(source))).collect() }
    }

    /// Part and degrees of freedom of each source of a value. Both lists are sorted, and the outputs of a model share the
    /// names of its inputs, so that the address mostly decides whether two sources are one.
    pub fn parts<'v>(&'v self, value: &'v UncertainValue) -> impl Iterator<Item = (f64, f64)> + 'v {
        let mut rest = self.sources.as_slice();
        value.parts.iter().map(move |(source, part)| {
            while let [(known, dof), after @ ..] = rest {
                if Arc::ptr_eq(known, source) || known == source {
                    return (*part, *dof);
                }
                if known > source {
                    break;
                }
                rest = after;
            }
            (*part, f64::INFINITY)
        })
    }

    /// Effective degrees of freedom of a value by the Welch-Satterthwaite formula (JCGM 100:2008, G.4.1).
    pub fn effective(&self, value: &UncertainValue) -> f64 {
        effective_dof(self.parts(value))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::uncertain_value::{ErrorSources, Shape};

    #[test]
    fn a_walk_finds_the_same_as_a_lookup() {
        let info = |dof| SourceInfo { shared: false, dof, shape: Shape::Student };
        let book: ErrorSources = [("a".into(), info(3.0)), ("c".into(), info(5.0)), ("d".into(), info(7.0))].into();
        let inputs =
            [UncertainValue::new(1.0, "c", 0.1).with("a", 0.2), UncertainValue::new(1.0, "d", 0.1).with("b", 0.4)];
        let freedom = Freedom::new(&inputs, |s| book.get(s));
        let value = UncertainValue::new(0.0, "d", 0.3).with("a", 0.1).with("aa", 0.2).with("b", 0.5).with("z", 1.0);
        let found: Vec<f64> = freedom.parts(&value).map(|(_, dof)| dof).collect();
        assert_eq!(found, [3.0, f64::INFINITY, f64::INFINITY, 7.0, f64::INFINITY]);
        assert!((freedom.effective(&value) / value.dof(&book) - 1.0).abs() < 1e-12);
    }
}
