//! Wood, time and cost of one kWh of heat: the mean over the burns of a combination.
//!
//! With x the figures of n burns and m their mean, u^2 = (s/m)^2 / n + the shared errors, as shares of m; the interval of the mean
//! is m exp(-/+ t u), that of one next burn has s^2 (1 + 1/n) in place of s^2 / n: the logarithm of what is above zero is taken to
//! be Student's. s is the combination's own scatter or that of all, as of forecasts ([`crate::forecast::ENOUGH`]).

use crate::Quantity;
use crate::forecast::ENOUGH;
use crate::result::{BookMeasure, Spread, TrialSummary};
use crate::shared::{SharedSources, SharedValue};
use calefact_stats::Interval;
use calefact_stats::contrast::cautious_dof;
use calefact_stats::dist::t_quantile;

/// J in a kWh.
const KWH: f64 = 3.6e6;

/// The figures of a combination's burns.
pub(super) struct Sample<'t> {
    /// The quantity of each burn with the figure that it gives.
    figures: Vec<(SharedValue<'t>, f64)>,
}

/// Squares of the residuals as shares of the mean, and their degrees of freedom.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Scatter {
    squares: f64,
    dof: f64,
}

impl Scatter {
    /// The scatter of several combinations together.
    pub(super) fn pooled<'s>(samples: impl Iterator<Item = &'s Sample<'s>>) -> Self {
        samples.map(Sample::scatter).fold(Self::default(), |sum, scatter| Self {
            squares: sum.squares + scatter.squares,
            dof: sum.dof + scatter.dof,
        })
    }
}

impl<'t> Sample<'t> {
    /// The burns that have the figure.
    pub(super) fn new(burns: &[&'t TrialSummary], measure: BookMeasure) -> Self {
        let (quantity, figure): (Quantity, fn(f64) -> f64) = match measure {
            BookMeasure::Wood => (Quantity::FuelPerHeat, |kg| kg),
            BookMeasure::Time => (Quantity::HeatInput, |watt| KWH / watt),
            BookMeasure::Cost => (Quantity::CostPerHeat, |cost| cost),
        };
        let known = burns.iter().filter_map(|burn| burn.get(quantity)).map(|value| (value, figure(value.value)));
        Self { figures: known.filter(|(_, figure)| figure.is_finite() && *figure > 0.0).collect() }
    }

    pub(super) fn len(&self) -> usize {
        self.figures.len()
    }

    fn mean(&self) -> f64 {
        self.figures.iter().map(|(_, figure)| figure).sum::<f64>() / self.len() as f64
    }

    fn scatter(&self) -> Scatter {
        let mean = self.mean();
        let squares = self.figures.iter().map(|(_, figure)| (figure / mean - 1.0) * (figure / mean - 1.0)).sum();
        Scatter { squares, dof: self.len().saturating_sub(1) as f64 }
    }

    /// The scatter that stands for this combination; none where no combination has two burns.
    fn scatter_among(&self, pooled: Scatter) -> Option<Scatter> {
        let own = self.scatter();
        match self.len() {
            n if n >= ENOUGH || (n > 1 && pooled.dof <= own.dof) => Some(own),
            _ => (pooled.dof > 0.0).then_some(pooled),
        }
    }

    /// Mean with intervals; none without burns.
    pub(super) fn spread(&self, pooled: Scatter, shared: &SharedSources, level: f64) -> Option<Spread> {
        let (n, value) = (self.len() as f64, self.mean());
        let weighed = self.figures.iter().map(|(raw, figure)| (*raw, figure / raw.value / n));
        let dof = |source: &_| shared.book().get(source).map_or(f64::INFINITY, |info| info.dof);
        let mut known: Vec<(f64, f64)> =
            shared.combined(weighed).iter().map(|(source, part)| (part / value, dof(source))).collect();
        if let [(alone, _)] = self.figures[..] {
            known.push((alone.own / alone.value, alone.own_dof));
        }
        let scatter = self.scatter_among(pooled).map(|s| ((s.squares / s.dof).sqrt(), s.dof));
        let with = |share: f64| scatter.map(|(s, dof)| (s * share.sqrt(), dof));
        let interval = |scatter: Option<(f64, f64)>| interval(value, known.iter().copied().chain(scatter), level);
        (n > 0.0).then(|| Spread {
            value,
            mean: interval(with(1.0 / n)),
            next: with(1.0 + 1.0 / n).map(|scatter| interval(Some(scatter))),
        })
    }
}

/// Interval of a value above zero whose errors, as shares of it, have these degrees of freedom.
fn interval(value: f64, errors: impl Iterator<Item = (f64, f64)>, level: f64) -> Interval {
    let errors: Vec<(f64, f64)> = errors.filter(|(u, _)| *u != 0.0).collect();
    let u = errors.iter().map(|(u, _)| u * u).sum::<f64>().sqrt();
    let width = if u > 0.0 { libm::exp(t_quantile(0.5 + 0.5 * level, cautious_dof(errors)) * u) } else { 1.0 };
    Interval { lower: value / width, upper: value * width, confidence: level }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample(figures: &[f64]) -> Sample<'static> {
        Sample { figures: figures.iter().map(|x| (SharedValue { value: *x, ..SharedValue::default() }, *x)).collect() }
    }

    /// Three burns by hand: .50, .55, .60 kg have mean .55 and s/m = .05/.55; t(.975; 2) = 4.302653. The factors are
    /// exp(4.302653 x .0909091 / sqrt 3) = 1.253373 and exp(4.302653 x .0909091 x sqrt(4/3)) = 1.570920.
    #[test]
    fn three_burns_by_hand() {
        let three = sample(&[0.50, 0.55, 0.60]);
        let spread = three.spread(three.scatter(), &SharedSources::default(), 0.95).expect("burns");
        let next = spread.next.expect("scatter");
        assert!((spread.value - 0.55).abs() < 1e-15);
        assert!((spread.mean.upper / 0.55 - 1.253_373).abs() < 1e-5, "{}", spread.mean.upper / 0.55);
        assert!((0.55 / spread.mean.lower - 1.253_373).abs() < 1e-5);
        assert!((next.upper / 0.55 - 1.570_920).abs() < 1e-5, "{}", next.upper / 0.55);
    }

    #[test]
    fn a_single_burn_borrows_the_scatter_of_the_others_or_has_none() {
        let (single, others) = (sample(&[0.8]), sample(&[0.50, 0.55, 0.60]));
        let shared = SharedSources::default();
        let alone = single.spread(single.scatter(), &shared, 0.95).expect("a burn");
        assert!(alone.next.is_none() && alone.mean.half_width() < 1e-12);
        let pooled = Scatter::pooled([&single, &others].into_iter());
        let borrowed = single.spread(pooled, &shared, 0.95).expect("a burn");
        let of_others = others.spread(pooled, &shared, 0.95).expect("burns");
        assert!(borrowed.mean.upper / 0.8 > of_others.mean.upper / 0.55);
        assert!(sample(&[]).spread(pooled, &shared, 0.95).is_none());
    }

    #[test]
    fn more_burns_narrow_the_mean() {
        let shared = SharedSources::default();
        let width = |n: usize| {
            let many = sample(&[0.50, 0.55, 0.60].repeat(n));
            many.spread(many.scatter(), &shared, 0.95).expect("burns").mean.half_width()
        };
        assert!(width(1) > width(2) && width(2) > width(4));
    }
}
