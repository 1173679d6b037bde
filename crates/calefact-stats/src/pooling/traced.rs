//! Weighted combination of trials that share sources of error: shared parts keep their size, own parts set the weights.

use crate::contrast::cautious_dof;
use crate::pooling::{IntervalMethod, PoolError, Pooled, Study, Tau2Method, Weighted, pool};
use crate::uncertain_value::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
use serde::Serialize;

/// A combined mean with its parts by source.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PooledValue {
    /// The combination of the trials' own errors and scatter, without the shared ones.
    pub own: Pooled,
    /// Mean with shared parts and, as one more source, the uncertainty of `own`.
    pub mean: UncertainValue,
    /// Effective degrees of freedom of the whole, see [`cautious_dof`].
    pub dof: f64,
    /// The source of the own part and what is known of it.
    pub scatter: (Source, SourceInfo),
}

/// Combines trials with weights from their own variance (sources not shared in `book`) and tau^2; a shared source's part
/// is the weighted mean of the trials' parts, so u^2 = u_own^2 + sum over shared sources of part^2. This equals
/// generalised least squares with the full covariance matrix when all trials have the same shared parts.
///
/// # Errors
/// [`PoolError`] for fewer than two trials, or for a trial with no error of its own.
pub fn pool_traced(
    trials: &[UncertainValue],
    book: &ErrorSources,
    scatter_source: impl Into<Source>,
    (tau2, interval): (Tau2Method, IntervalMethod),
    level: f64,
) -> Result<PooledValue, PoolError> {
    let shared = |s: &Source| book.get(s).is_some_and(|info| info.shared);
    let own_variance = |t: &UncertainValue| t.parts.iter().filter(|(s, _)| !shared(s)).map(|(_, p)| p * p).sum();
    let studies: Vec<Study> = trials.iter().map(|t| Study { value: t.value, variance: own_variance(t) }).collect();
    let own = pool(&studies, tau2, interval, level)?;
    let weights = weights(&studies, &own);
    let terms: Vec<(f64, &UncertainValue)> = weights.into_iter().zip(trials).collect();
    let mut combined = UncertainValue::combine(&terms);
    combined.parts.retain(|(s, _)| shared(s));
    let source: Source = scatter_source.into();
    let label = format!("scatter between {} trials", own.k);
    let info = SourceInfo { label, shared: true, dof: own.dof, shape: Shape::Student };
    let mean = UncertainValue { value: own.mean, parts: combined.parts }.with(source.clone(), own.std_uncertainty);
    let dof_of = |s: &Source| if *s == source { own.dof } else { book.get(s).map_or(f64::INFINITY, |i| i.dof) };
    let dof = cautious_dof(mean.parts.iter().map(|(s, p)| (*p, dof_of(s))));
    Ok(PooledValue { own, mean, dof, scatter: (source, info) })
}

/// Weights that sum to one: 1 / (v + tau^2), or equal ones for the unweighted mean.
fn weights(studies: &[Study], own: &Pooled) -> Vec<f64> {
    if own.interval_method == IntervalMethod::Unweighted {
        return vec![1.0 / studies.len() as f64; studies.len()];
    }
    let tau2 = own.tau2.unwrap_or(0.0);
    let total = Weighted::at(studies, tau2).total;
    studies.iter().map(|s| 1.0 / (s.variance + tau2) / total).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// y = 1.02, .97, 1.05 with own u = .03, .04, .05 and a shared u = .06: mean 1.01098829649, u = 0.0637819758 by
    /// generalised least squares with the full covariance matrix (closed form sqrt(1 / sum w + u_sys^2)).
    #[test]
    fn shared_part_equals_generalised_least_squares() {
        let info = |shared| SourceInfo { label: String::new(), shared, dof: f64::INFINITY, shape: Shape::Normal };
        let book = ErrorSources::from([("own".into(), info(false)), ("systematic".into(), info(true))]);
        let trials: Vec<UncertainValue> = [(1.02, 0.03), (0.97, 0.04), (1.05, 0.05)]
            .iter()
            .map(|&(y, u)| UncertainValue::new(y, "own", u).with("systematic", 0.06))
            .collect();
        let methods = (Tau2Method::Fixed, IntervalMethod::Normal);
        let p = pool_traced(&trials, &book, "scatter", methods, 0.95).unwrap();
        assert!((p.mean.value - 1.010_988_296_49).abs() < 1e-11);
        assert!((p.mean.std_uncertainty() - 0.063_781_975_8).abs() < 1e-10);
        assert!(p.dof.is_infinite());
    }
}
