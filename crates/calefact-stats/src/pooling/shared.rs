//! Weighted combination of trials that share sources of error: shared parts keep their size, own parts set the weights.

use super::pooled::{IntervalMethod, Pooled, pool};
use super::study::{PoolError, Study};
use super::tau2::Tau2Method;
use crate::contrast::cautious_dof;
use crate::uncertain_value::{ErrorSources, Source, SourceInfo, UncertainValue};

/// A combined mean with its parts by source.
#[derive(Debug, Clone, PartialEq)]
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
pub fn pool_values(
    trials: &[UncertainValue],
    book: &ErrorSources,
    scatter_source: impl Into<Source>,
    tau2: Tau2Method,
    interval: IntervalMethod,
) -> Result<PooledValue, PoolError> {
    let shared = |s: &Source| book.get(s).is_some_and(|info| info.shared);
    let own_variance = |t: &UncertainValue| t.parts.iter().filter(|(s, _)| !shared(s)).map(|(_, p)| p * p).sum();
    let studies: Vec<Study> = trials.iter().map(|t| Study { value: t.value, variance: own_variance(t) }).collect();
    let own = pool(&studies, tau2, interval)?;
    let terms: Vec<(f64, &UncertainValue)> = own.weights.iter().copied().zip(trials).collect();
    let mut parts = UncertainValue::combine(&terms).parts;
    parts.retain(|(s, _)| shared(s));
    let source: Source = scatter_source.into();
    let info = SourceInfo::scatter(own.dof);
    let mean = UncertainValue { value: own.mean, parts }.with(source.clone(), own.std_uncertainty);
    let source_dof = |s: &Source| if *s == source { own.dof } else { book.get(s).map_or(f64::INFINITY, |i| i.dof) };
    let dof = cautious_dof(mean.parts.iter().map(|(s, p)| (*p, source_dof(s))));
    Ok(PooledValue { own, mean, dof, scatter: (source, info) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::uncertain_value::Shape;

    /// Paule-Mandel with tau^2 = 0: y = 1.02, .97, 1.05 with own u = .03, .04, .05 have Q = 1.7 below k - 1 = 2, so the mean is
    /// that of generalised least squares, 1.01098829649 (closed form), and the shared u = .06 stays whole beside the own
    /// sqrt(Q / 2 / sum w), 0.0216305 x sqrt(Q / 2).
    #[test]
    fn shared_part_keeps_its_size() {
        let info = |shared| SourceInfo { shared, dof: f64::INFINITY, shape: Shape::Normal };
        let book = ErrorSources::from([("own".into(), info(false)), ("systematic".into(), info(true))]);
        let trials: Vec<UncertainValue> = [(1.02, 0.03), (0.97, 0.04), (1.05, 0.05)]
            .iter()
            .map(|&(y, u)| UncertainValue::new(y, "own", u).with("systematic", 0.06))
            .collect();
        let p = pool_values(&trials, &book, "scatter", Tau2Method::PauleMandel, IntervalMethod::HartungKnapp).unwrap();
        let weights = [0.03, 0.04, 0.05].map(|u: f64| 1.0 / (u * u));
        let total: f64 = weights.iter().sum();
        let mean = weights.iter().zip(&trials).map(|(w, t)| w * t.value).sum::<f64>() / total;
        let q: f64 = weights.iter().zip(&trials).map(|(w, t)| w * (t.value - mean) * (t.value - mean)).sum();
        assert!((p.mean.value - 1.010_988_296_49).abs() < 1e-11 && p.own.tau2 == 0.0, "{p:?}");
        let u = p.mean.std_uncertainty();
        assert!((u * u - 0.0036 - q / 2.0 / total).abs() < 1e-14, "{u}");
        let parts: Vec<&str> = p.mean.parts.iter().map(|(s, _)| &**s).collect();
        assert_eq!(parts, ["scatter", "systematic"]);
        let dof = cautious_dof([((q / 2.0 / total).sqrt(), 2.0), (0.06, f64::INFINITY)]);
        assert!((p.dof / dof - 1.0).abs() < 1e-12 && p.scatter.1 == SourceInfo::scatter(2.0));
    }
}
