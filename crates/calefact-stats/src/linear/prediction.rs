//! What a linear fit says of a point: the mean there, and one further observation there.

use super::LinearFit;
use crate::dist::t_quantile;
use crate::estimate::Interval;
use nalgebra::DVector;

/// A prediction at one row of a design.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// Fitted mean x'b.
    pub value: f64,
    /// Standard uncertainty of the mean, sqrt(x' Cov x).
    pub std_uncertainty: f64,
    /// t interval of the mean.
    pub mean: Interval,
    /// t interval of one further observation of weight one: variance s^2 + x' Cov x.
    pub observation: Interval,
}

impl LinearFit {
    /// Prediction at the design row `row` with intervals of probability `level` (Draper and Smith, Applied Regression
    /// Analysis, 3.1). NaN ends when no degree of freedom is left.
    pub fn predict(&self, row: &[f64], level: f64) -> Prediction {
        let x = DVector::from_column_slice(row);
        let value = row.iter().zip(&self.coefficients).map(|(x, b)| x * b).sum();
        let variance = x.dot(&(&self.covariance * &x));
        let t = t_quantile(0.5 + 0.5 * level, self.dof);
        let around = |u: f64| Interval { lower: value - t * u, upper: value + t * u, level };
        Prediction {
            value,
            std_uncertainty: variance.sqrt(),
            mean: around(variance.sqrt()),
            observation: around((variance + self.residual_sd.powi(2)).sqrt()),
        }
    }
}
